/** A visit from page to page by presses: from each press to the next paint, and how far what stood there moved by itself. */
import type { Page } from 'playwright-core';
import { openSlowPhone } from './slow-phone.ts';

interface Seen {
  /** The longest of each press by its id [ms]. */
  readonly presses: Record<string, number>;
  shift: number;
}

/** Event Timing (W3C) rounds to 8 ms, and tells of nothing shorter than this. */
const leastMs = 16;

function watchPresses(): void {
  const seen: Seen = { presses: {}, shift: 0 };
  Object.assign(globalThis, { seenOfVisit: seen });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries() as (PerformanceEntry & { interactionId: number })[]) {
      if (entry.interactionId === 0) continue;
      seen.presses[entry.interactionId] = Math.max(seen.presses[entry.interactionId] ?? 0, entry.duration);
    }
  }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit);
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries() as (PerformanceEntry & { value: number; hadRecentInput: boolean })[])
      if (!entry.hadRecentInput) seen.shift += entry.value;
  }).observe({ type: 'layout-shift', buffered: true });
}

const seenOf = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { seenOfVisit: Seen }).seenOfVisit) as Promise<Seen>;

/** Links of the head and of pages, in the order of a walk through all that people come for. */
const walk = ['Plan', 'Seasons', 'Practice', 'More', 'Batches', 'Piles'] as const;

export async function visit(url: string): Promise<Record<string, number>> {
  const { page, settled, close } = await openSlowPhone(watchPresses);
  await page.goto(url, { waitUntil: 'commit' });
  await page.locator('.entries h3 a').first().waitFor();
  let [pressed, shift] = [0, 0];
  const press = async (name: string) => {
    await page.getByRole('link', { name, exact: true }).first().click();
    await page.locator('h1').waitFor();
    await settled();
    pressed += 1;
  };
  for (const name of walk) await press(name);
  await page.locator('.entries h3 a').first().click();
  await page.locator('main canvas').first().waitFor();
  pressed += 1;
  await page.keyboard.press('Control+/');
  const field = page.locator('#search-words');
  await field.waitFor();
  for (const letter of 'pile-1') {
    await field.press(letter);
    pressed += 1;
  }
  await page.locator('.found').first().waitFor();
  const { presses } = await seenOf(page);
  // Each page by itself, as it loads.
  for (const path of ['/', '/piles/pile-0', '/batches', '/probes', '/seasons', '/plan']) {
    await page.goto(url + path, { waitUntil: 'load' });
    await settled();
    shift = Math.max(shift, (await seenOf(page)).shift);
  }
  await close();
  const lengthsMs = Object.values(presses);
  const all = [...lengthsMs, ...Array.from({ length: Math.max(0, pressed - lengthsMs.length) }, () => leastMs)];
  all.sort((one, other) => one - other);
  return { interaction_p95_ms: all[Math.ceil(0.95 * all.length) - 1] ?? Number.NaN, presses: all.length, shift };
}
