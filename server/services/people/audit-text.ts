/**
 * What stands in the "before" and "after" of a row of the audit trail: plain data that is short, without secrets, and always
 * there, whatever it is made of.
 */

const tellsOfSecret = /passw|secret|token|digest|credential|^(auth|authorization|p256dh|key|endpoint|cookie)$/i;
const mostMessages = 300;
const mostItems = 20;
const mostFields = 60;
const mostKept = 6_000;
/** Objects and lists within one another; our own bodies go to six. */
export const mostDepth = 10;
/** Values in all, so that neither width nor depth times width takes long. */
const mostValues = 2_000;

/** @returns Plain data of at most 6,000 letters of JSON; null for nothing. Never throws: what cannot be shown is said to be left out. */
export function auditData(value: unknown): unknown {
  if (value === undefined || value === null) return null;
  try {
    const text: string | undefined = JSON.stringify(withoutSecrets(value));
    if (text === undefined) return leftOut('unwritable');
    return text.length <= mostKept ? JSON.parse(text) : leftOut('too-long');
  } catch {
    return leftOut('unwritable');
  }
}

export const leftOut = (why: 'unwritable' | 'too-long'): { leftOut: string } => ({ leftOut: why });

/** The same, readable and short: secrets left out, long texts cut, long lists counted, depth bounded. */
export function withoutSecrets(value: unknown): unknown {
  let left = mostValues;
  const shorten = (one: unknown, depth: number): unknown => {
    left -= 1;
    if (left < 0) return '…';
    if (typeof one === 'string') return shortText(one);
    if (one instanceof Uint8Array) return `${one.length} bytes`;
    if (typeof one !== 'object' || one === null) return one;
    if (depth >= mostDepth) return '(deeper)';
    if (Array.isArray(one)) {
      const shown = one.slice(0, mostItems).map((item) => shorten(item, depth + 1));
      return one.length > mostItems ? [...shown, `… ${one.length - mostItems} more`] : shown;
    }
    const fields = Object.entries(one);
    const shown = fields
      .slice(0, mostFields)
      .map(([name, field]): [string, unknown] => [
        shortText(name),
        tellsOfSecret.test(name) ? '(left out)' : shorten(field, depth + 1),
      ]);
    if (fields.length > mostFields) shown.push(['…', `${fields.length - mostFields} more`]);
    return Object.fromEntries(shown);
  };
  return shorten(value, 0);
}

function shortText(text: string): string {
  const bare = text.replace(/:\/\/[^/?#\s]*@/g, '://…@');
  return bare.length <= mostMessages ? bare : `${bare.slice(0, mostMessages)}… (${bare.length} characters)`;
}
