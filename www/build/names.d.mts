import type { Plugin } from 'vite'

export function text(): string
export function names(): Plugin
