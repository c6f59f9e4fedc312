/** Reads CSV (RFC 4180) row by row, quotes included. */

/** Fields of one line; a doubled quote inside quotes is one quote. Line breaks inside quotes are not expected here. */
export function fieldsOf(line: string): string[] {
  if (!line.includes('"')) return line.split(',');
  const fields: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < line.length; i += 1) {
    const sign = line[i];
    if (quoted) {
      if (sign !== '"') field += sign;
      else if (line[i + 1] === '"') {
        field += '"';
        i += 1;
      } else quoted = false;
    } else if (sign === '"') quoted = true;
    else if (sign === ',') {
      fields.push(field);
      field = '';
    } else field += sign;
  }
  fields.push(field);
  return fields;
}

/**
 * An instant as people and loggers write it [epoch ms]; NaN when it is none.
 * ISO 8601 with or without zone (without: UTC), "YYYY-MM-DD hh:mm:ss", or epoch seconds or milliseconds.
 */
export function instantOf(text: string): number {
  const trimmed = text.trim();
  if (/^\d{9,13}(\.\d+)?$/.test(trimmed)) {
    const number = Number(trimmed);
    return number < 1e11 ? number * 1000 : number;
  }
  const iso = /^\d{4}-\d{2}-\d{2}([T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?)?/.exec(trimmed);
  if (iso === null) return Number.NaN;
  const zoned = /(Z|[+-]\d{2}:?\d{2})$/.test(trimmed) && iso[1] !== undefined;
  const withT = trimmed.replace(' ', 'T');
  return Date.parse(zoned || iso[1] === undefined ? withT : `${withT}Z`);
}
