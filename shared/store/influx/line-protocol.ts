/**
 * How readings stand in InfluxDB: a measurement per quantity, the tags site and probe, one field `value`, times in
 * milliseconds. It never lets a name end a tag, a line or a literal: what is not a plain letter, digit, `-`, `_`, `.`
 * or `~` is written as per cent and hexadecimal digits (RFC 3986), in lines and in questions alike.
 */

/** InfluxDB counts nanoseconds in 64 bits with a sign: the last whole millisecond of that, in the year 2262. */
export const latestInfluxMs = 9_223_372_036_854;

const plain = /^[A-Za-z0-9_.~-]+$/;
/** A tag without characters would be no tag, and no name encodes to this. */
const emptyName = '%';

/** @throws {RangeError} when half of a surrogate pair stands alone: such text has no bytes. */
export function encodeName(name: string): string {
  if (plain.test(name)) return name;
  if (name === '') return emptyName;
  try {
    return encodeURIComponent(name).replace(
      /[!'()*]/g,
      (character) => `%${character.charCodeAt(0).toString(16).toUpperCase()}`,
    );
  } catch {
    throw new RangeError(`Cannot keep a reading as its names must be whole characters: found ${JSON.stringify(name)}`);
  }
}

/** Names that others wrote into the bucket may not be of our kind; they are given as they stand. */
export function decodeName(encoded: string): string {
  if (plain.test(encoded)) return encoded;
  if (encoded === emptyName) return '';
  try {
    return decodeURIComponent(encoded);
  } catch {
    return encoded;
  }
}

/** The part of a line that is the same for all readings of a series, up to its value. */
export function lineStart(quantity: string, site: string, probe: string): string {
  // Tags in the order of their names, as the database likes them.
  return `${quantity},probe=${encodeName(probe)},site=${encodeName(site)} value=`;
}

/** @example identity('bran-core', 'yard') // => `"probe" = 'bran-core' AND "site" = 'yard'` */
export function seriesCondition(site: string, probe: string): string {
  return `"probe" = '${encodeName(probe)}' AND "site" = '${encodeName(site)}'`;
}

/** @param sites one at least. */
export function sitesCondition(sites: readonly string[]): string {
  return `(${sites.map((site) => `"site" = '${encodeName(site)}'`).join(' OR ')})`;
}

/** Both ends included. */
export function timeCondition(fromMs: number, throughMs: number): string {
  return `time >= ${fromMs}ms AND time <= ${Math.min(throughMs, latestInfluxMs)}ms`;
}
