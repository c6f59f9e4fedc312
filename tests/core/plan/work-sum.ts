/**
 * Works out a line of working by hand, as a reader would, from its text alone. It never adds kilograms to litres:
 * unlike dimensions are an error.
 */

export interface Worked {
  readonly low: number;
  readonly high: number;
  /** Powers of kilogram and metre. */
  readonly kg: number;
  readonly m: number;
}

// Definitions of the international agreement of 1959 and of the US gallon (231 cubic inches), written out here once more.
const pound = 0.45359237;
const gallon = 231 * 0.0254 ** 3;
const foot = 0.3048;
const unitTable: Record<string, readonly [size: number, kg: number, m: number]> = {
  '': [1, 0, 0],
  '%': [0.01, 0, 0],
  kg: [1, 1, 0],
  lb: [pound, 1, 0],
  L: [1e-3, 0, 3],
  mL: [1e-6, 0, 3],
  'US gal': [gallon, 0, 3],
  'kg/L': [1e3, 1, -3],
  'lb/L': [pound * 1e3, 1, -3],
  'kg/US gal': [1 / gallon, 1, -3],
  'lb/US gal': [pound / gallon, 1, -3],
  cm: [0.01, 0, 1],
  in: [0.0254, 0, 1],
  m: [1, 0, 1],
  ft: [foot, 0, 1],
  'm²': [1, 0, 2],
  'ft²': [foot ** 2, 0, 2],
  'kg/m²': [1, 1, -2],
  'kg/ft²': [1 / foot ** 2, 1, -2],
  'lb/m²': [pound, 1, -2],
  'lb/ft²': [pound / foot ** 2, 1, -2],
};
const unitNames = Object.keys(unitTable)
  .filter((name) => name !== '')
  .sort((one, other) => other.length - one.length)
  .join('|');
const token = new RegExp(`\\s*(?:(\\d[\\d.]*(?:e[+−]?\\d+)?)(?: (${unitNames})(?![\\w/²]))?|([-+×÷−()√]))`, 'y');

export function inSi(value: number, unit: string): Worked {
  const [size, kg, m] = unitTable[unit] ?? [Number.NaN, 0, 0];
  return { low: value * size, high: value * size, kg, m };
}

type Token = Worked | string;

function tokensOf(sum: string): Token[] {
  const tokens: Token[] = [];
  token.lastIndex = 0;
  while (token.lastIndex < sum.length) {
    const match = token.exec(sum);
    if (!match) throw new Error(`cannot read "${sum}"`);
    const [, digits, unit = '', sign] = match;
    if (digits === undefined) {
      tokens.push(sign ?? '');
      continue;
    }
    const value = Number(digits.replace('−', '-'));
    const half = value >= 1000 ? 0.5 : value === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(value)) - 3);
    const { kg, m, low: size } = inSi(1, unit);
    tokens.push({ low: (value - half) * size, high: (value + half) * size, kg, m });
  }
  return tokens;
}

export function workSum(sum: string): Worked {
  const tokens = tokensOf(sum);
  let at = 0;

  function atom(): Worked {
    const next = tokens[at++];
    if (next === '(') {
      const inner = terms();
      if (tokens[at++] !== ')') throw new Error(`no closing bracket in "${sum}"`);
      return inner;
    }
    if (next === '√') {
      const { low, high, kg, m } = atom();
      return { low: Math.sqrt(low), high: Math.sqrt(high), kg: kg / 2, m: m / 2 };
    }
    if (next === undefined || typeof next === 'string') throw new Error(`a figure is missing in "${sum}"`);
    return next;
  }
  function factors(): Worked {
    let left = atom();
    while (tokens[at] === '×' || tokens[at] === '÷') {
      const sign = tokens[at++] === '×' ? 1 : -1;
      const right = atom();
      const bounds = [left.low, left.high].flatMap((one) =>
        [right.low, right.high].map((other) => (sign === 1 ? one * other : one / other)),
      );
      left = {
        low: Math.min(...bounds),
        high: Math.max(...bounds),
        kg: left.kg + sign * right.kg,
        m: left.m + sign * right.m,
      };
    }
    return left;
  }
  function terms(): Worked {
    let left = factors();
    while (tokens[at] === '+' || tokens[at] === '−') {
      const plus = tokens[at++] === '+';
      const right = factors();
      if (left.kg !== right.kg || left.m !== right.m) throw new Error(`unlike amounts are added in "${sum}"`);
      left = plus
        ? { ...left, low: left.low + right.low, high: left.high + right.high }
        : { ...left, low: left.low - right.high, high: left.high - right.low };
    }
    return left;
  }

  const worked = terms();
  if (at < tokens.length) throw new Error(`something is left over in "${sum}"`);
  return worked;
}
