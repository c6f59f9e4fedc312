/** What axe has to report of a page, light and dark, on a wide screen and on a phone, and whether it scrolls sideways. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

declare global {
  interface Window {
    readonly axe: typeof axe;
  }
}

/** Light and dark differ by colours alone (`light-dark()` in tokens.css), so dark is asked what has to do with them. */
const aboutColours = ['color-contrast', 'link-in-text-block'];

interface Asked {
  readonly exclude?: readonly string[];
  /** Without them all are asked. */
  readonly rules?: readonly string[];
}

/** @returns A line for each rule that is broken, with what breaks it. */
export async function axeFindings(page: Page, { exclude = [], rules }: Asked = {}): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(
    async ([without, only]) => {
      const { violations } = await window.axe.run(
        { exclude: [...without] },
        { resultTypes: ['violations'], ...(only && { runOnly: [...only] }) },
      );
      return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
    },
    [exclude, rules] as const,
  );
}

interface Looks {
  readonly widths: readonly number[];
  readonly height?: number;
  readonly exclude?: readonly string[];
  /** Called in each look, for whoever wants a picture. */
  readonly onLook?: (width: number, colorScheme: 'light' | 'dark') => Promise<unknown>;
}

/** Leaves the page dark, at the last width. @returns A line for each finding, with the look in which it was found. */
export async function findingsInEveryLook(
  page: Page,
  { widths, height = 800, exclude = [], onLook }: Looks,
): Promise<string[]> {
  const found: string[] = [];
  for (const width of widths) {
    await page.setViewportSize({ width, height });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const rules = colorScheme === 'dark' ? { rules: aboutColours } : {};
      const inThisLook = await axeFindings(page, { exclude, ...rules });
      const overhangPx = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (overhangPx > 0) inThisLook.push(`scrolls sideways by ${overhangPx} px`);
      found.push(...inThisLook.map((line) => `${colorScheme}, ${width} px: ${line}`));
      await onLook?.(width, colorScheme);
    }
  }
  return found;
}
