import type { PageText } from './page-text.ts';

export function isPage(name: string): boolean;
export function compiled(code: string, text: string): PageText;
