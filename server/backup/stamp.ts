/** @example stamp(Date.UTC(2031, 0, 2, 3, 4, 5)) // => '20310102-030405' */
export function stamp(nowMs: number): string {
  return new Date(nowMs).toISOString().replace(/[-:]/g, '').replace('T', '-').slice(0, 15);
}
