import type { Plugin } from 'vite'

export function ahead(): Plugin
