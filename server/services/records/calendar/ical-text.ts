/** Lines of an iCalendar file as RFC 5545 wants them. */

/** Section 3.3.11: backslash, semicolon, comma and line breaks are escaped; other controls may not stand in text. */
export function icalText(text: string): string {
  return text
    .replace(/\t/g, ' ')
    .replace(/\\/g, '\\\\')
    .replace(/;/g, '\\;')
    .replace(/,/g, '\\,')
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(/\p{Cc}/gu, '');
}

/** Section 3.3.5, form 2: a time in UTC. @example icalTime(Date.UTC(2031, 3, 3, 14, 5)) // => '20310403T140500Z' */
export function icalTime(atMs: number): string {
  return new Date(atMs).toISOString().replace(/[-:]|\.\d{3}/g, '');
}

/**
 * Section 3.1: lines end in CRLF and are folded so that none is longer than 75 octets; a character of several octets is
 * never cut.
 */
export function icalLines(lines: readonly string[]): string {
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

function folded(line: string): string {
  let text = '';
  let octets = 0;
  for (const sign of line) {
    const length = Buffer.byteLength(sign);
    if (octets + length > 75) {
      text += '\r\n ';
      octets = 1; // the space that goes on a folded line counts
    }
    text += sign;
    octets += length;
  }
  return text;
}
