import type { Plugin } from 'vite'

export function charactersOf(set: string): string[]
export function table(): Record<string, [letters: string, signs: string]>
export function characters(): Plugin
