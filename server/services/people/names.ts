/** Names of people as they are compared. */

/** "Ada" and "ＡＤＡ " are one; what is shown stays as it was written. */
export function nameKeyOf(name: string): string {
  return name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
}
