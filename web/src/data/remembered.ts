/** What is remembered in this browser, and may not be: storage can be forbidden (private windows, strict settings). The page then forgets, but works. */

export const prefsKey = 'branhearth.prefs';
/** In which language the page was read last, BCP 47. */
export const languageKey = 'branhearth.language';

export function recall(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** @returns Whether it was kept; else it is forgotten at the next load. */
export function remember(key: string, value: string): boolean {
  try {
    localStorage.setItem(key, value);
    return true;
  } catch {
    return false;
  }
}

export function forget(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was kept, then.
  }
}
