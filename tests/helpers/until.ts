/** Waits for something to become true, and says what was last seen when it does not. */

/** Asks `look` every 20 ms until it gives a value other than undefined. @throws {Error} after `patienceMs`. */
export async function until<T>(
  what: string,
  look: () => T | undefined | Promise<T | undefined>,
  patienceMs = 15_000,
): Promise<T> {
  const endMs = Date.now() + patienceMs;
  for (;;) {
    const seen = await look();
    if (seen !== undefined) return seen;
    if (Date.now() > endMs) throw new Error(`waited ${patienceMs} ms in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
