/** How long until the home of 300 piles answers what is typed within a tenth of a second. */
import type { Page } from 'playwright-core';
import { openSlowPhone } from './slow-phone.ts';

const promptMs = 100;
const mostTries = 40;

/** Types a letter into the field that finds piles. @returns When, and how long until the next paint [ms]. */
function typeLetter(page: Page, letter: string): Promise<{ atMs: number; tookMs: number }> {
  return page.evaluate(
    (typed) =>
      new Promise<{ atMs: number; tookMs: number }>((resolve) => {
        const field = document.querySelector<HTMLInputElement>('.home-controls input');
        const atMs = performance.now();
        if (field) field.value = typed;
        field?.dispatchEvent(new Event('input', { bubbles: true }));
        requestAnimationFrame(() => setTimeout(() => resolve({ atMs, tookMs: performance.now() - atMs })));
      }),
    letter,
  );
}

export async function manyUsable(url: string): Promise<Record<string, number>> {
  const { page, close } = await openSlowPhone();
  await page.goto(url, { waitUntil: 'commit' });
  await page.locator('.home-controls input').waitFor();
  for (let at = 0; at < mostTries; at += 1) {
    const { atMs, tookMs } = await typeLetter(page, at % 2 === 0 ? '1' : '');
    if (tookMs > promptMs) continue;
    const next = await typeLetter(page, at % 2 === 0 ? '' : '1');
    await close();
    return { many_usable_ms: atMs + tookMs, many_letter_ms: Math.max(tookMs, next.tookMs) };
  }
  await close();
  return { many_usable_ms: Number.NaN, many_letter_ms: Number.NaN };
}
