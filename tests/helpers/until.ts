/** Waits for something to become true, and says what was last seen when it does not. */

/** What anything may take that a test waits for, on a slow and busy machine too; less than a test has, so that it can say what failed to come. */
export const patienceMs = 60_000;

/** Asks `look` every 20 ms until it gives a value other than undefined. @throws {Error} after `atMostMs`. */
export async function until<T>(
  what: string,
  look: () => T | undefined | Promise<T | undefined>,
  atMostMs = patienceMs,
): Promise<T> {
  const endMs = Date.now() + atMostMs;
  for (;;) {
    const seen = await look();
    if (seen !== undefined) return seen;
    if (Date.now() > endMs) throw new Error(`waited ${atMostMs} ms in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
