/**
 * The few templates that nearly all devices use to say where in a message their value stands. They are read as what they
 * are, a path and a few words behind it; nothing is ever evaluated.
 *
 * ```
 * template = "{{" path { "|" word [ "(" number { "," number } ")" ] } "}}"
 * path     = "value" | "value_json" { "." name | "[" digits "]" | "['" name "']" }
 * word     = "float" | "int" | "round" | "is_defined"
 * ```
 */
import { isObject } from './family.ts';

export interface ValueTemplate {
  /** Empty for the payload itself. */
  readonly path: readonly (string | number)[];
  readonly isJson: boolean;
  /** Digits behind the point, of the last `round` or `int`. */
  readonly digits: number | undefined;
  readonly cuts: boolean;
}

const longest = 200;
const deepest = 8;
const mostDigits = 6;

/** @returns undefined when it is none of the simple ones. */
export function readTemplate(text: string): ValueTemplate | undefined {
  if (text.length > longest) return undefined;
  const rest = new Scanner(text);
  if (!rest.take('{{')) return undefined;
  const root = rest.word();
  if (root !== 'value' && root !== 'value_json') return undefined;
  const path = root === 'value_json' ? readPath(rest) : [];
  if (path === undefined) return undefined;
  let digits: number | undefined;
  let cuts = false;
  while (rest.take('|')) {
    const word = rest.word();
    const numbers = rest.numbers();
    if (numbers === undefined) return undefined;
    if (word === 'round') digits = Math.min(mostDigits, Math.max(0, numbers[0] ?? 0));
    else if (word === 'int') cuts = true;
    else if (word !== 'float' && word !== 'is_defined') return undefined;
  }
  if (!rest.take('}}') || !rest.isAtEnd()) return undefined;
  return { path, isJson: root === 'value_json', digits, cuts };
}

function readPath(rest: Scanner): (string | number)[] | undefined {
  const path: (string | number)[] = [];
  for (;;) {
    if (path.length > deepest) return undefined;
    if (rest.take('.', false)) {
      const name = rest.word();
      if (name === '') return undefined;
      path.push(name);
    } else if (rest.take('[', false)) {
      const step = rest.quoted() ?? rest.digits();
      if (step === undefined || !rest.take(']')) return undefined;
      path.push(step);
    } else return path;
  }
}

/** What stands there; undefined when nothing does. */
export function templateValue(template: ValueTemplate, text: string, body: unknown): unknown {
  if (!template.isJson) return worked(text, template);
  let here: unknown = body;
  for (const step of template.path) {
    if (Array.isArray(here)) here = typeof step === 'number' ? here[step] : undefined;
    else if (isObject(here) && Object.hasOwn(here, step)) here = here[String(step)];
    else return undefined;
  }
  return worked(here, template);
}

function worked(found: unknown, { digits, cuts }: ValueTemplate): unknown {
  if (digits === undefined && !cuts) return found;
  const number = typeof found === 'string' && found.trim() !== '' && found.length < 40 ? Number(found) : found;
  if (typeof number !== 'number' || !Number.isFinite(number)) return found;
  if (cuts) return Math.trunc(number);
  const factor = 10 ** (digits ?? 0);
  return Math.round(number * factor) / factor;
}

/** Reads on from where it is, a sign at a time. */
class Scanner {
  readonly #text: string;
  #at = 0;

  constructor(text: string) {
    this.#text = text;
  }

  /** @param mayFollowSpace A path holds no spaces before its steps. */
  take(sign: string, mayFollowSpace = true): boolean {
    if (mayFollowSpace) this.#skipSpace();
    if (!this.#text.startsWith(sign, this.#at)) return false;
    this.#at += sign.length;
    return true;
  }

  /** Letters, digits and underscores; empty when there are none. */
  word(): string {
    this.#skipSpace();
    return this.#while(/\w/);
  }

  digits(): number | undefined {
    this.#skipSpace();
    const found = this.#while(/\d/);
    return found === '' || found.length > 6 ? undefined : Number(found);
  }

  quoted(): string | undefined {
    this.#skipSpace();
    const quote = this.#text[this.#at];
    if (quote !== "'" && quote !== '"') return undefined;
    const end = this.#text.indexOf(quote, this.#at + 1);
    if (end < 0) return undefined;
    const found = this.#text.slice(this.#at + 1, end);
    this.#at = end + 1;
    // What would escape a sign or begin something else is no plain name.
    return /[\\{}'"]/.test(found) ? undefined : found;
  }

  /** Of the brackets behind a word; empty where there are none. */
  numbers(): number[] | undefined {
    if (!this.take('(')) return [];
    const found: number[] = [];
    if (this.take(')')) return found;
    do {
      this.#skipSpace();
      const text = this.#while(/[\d.-]/);
      const number = Number(text);
      if (text === '' || text.length > 12 || !Number.isFinite(number) || found.length > 2) return undefined;
      found.push(number);
    } while (this.take(','));
    return this.take(')') ? found : undefined;
  }

  isAtEnd(): boolean {
    this.#skipSpace();
    return this.#at === this.#text.length;
  }

  #skipSpace(): void {
    this.#while(/\s/);
  }

  #while(sign: RegExp): string {
    const from = this.#at;
    while (this.#at < this.#text.length && sign.test(this.#text[this.#at] ?? '')) this.#at += 1;
    return this.#text.slice(from, this.#at);
  }
}
