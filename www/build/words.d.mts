import type { Plugin } from 'vite'

export function chosen(words: readonly string[]): string[]
export function list(): string[]
export function words(): Plugin
