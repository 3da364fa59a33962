import type { Plugin } from 'vite'

export function files(folder: string): { url: string; revision: string | null }[]
export function offline(): Plugin
