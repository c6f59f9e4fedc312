/** Looks through whatever was sent for the sign NUL, however deep it is nested. */
export function holdsNul(sent: unknown): boolean {
  const waiting = [sent];
  while (waiting.length > 0) {
    const part = waiting.pop();
    if (typeof part === 'string' && part.includes('\u0000')) return true;
    if (typeof part !== 'object' || part === null || part instanceof Uint8Array) continue;
    for (const [name, value] of Object.entries(part)) {
      if (name.includes('\u0000')) return true;
      if (value !== undefined) waiting.push(value);
    }
  }
  return false;
}
