/** Texts that have no code: their temperatures are found by reading them, which is done for nothing else. */
import { differenceIn, minus, noBreak, plainNumber, type TempUnit, tempIn, unitSigns } from '../temperature.ts';

// Both bounded, so that a long row of digits or of numbers takes time by its length only.
const number = '[-\u2212]?\\d{1,6}(?:\\.\\d{1,6})?';
const joint = '(?:, | to | and | or |-|\u2013)';
const temperaturesInText = new RegExp(
  `(\\b(?:by|within)(?: about| at least| up to)? )?(${number}(?:${joint}${number}){0,9})[ \u00a0]?°C`,
  'g',
);
/** "4 °C above the air", "3 °C an hour": a difference, which has no offset of 32. */
const differenceAfter =
  /^[ \u00a0](above|below|warmer|cooler|hotter|colder|higher|lower|more|less|apart|per |an hour|a day|in an? )/;

/**
 * Puts the temperatures of a finished text in °C into the unit of whoever reads, and keeps numbers and units on one line. Differences
 * are known by the words around them. For `verbatim` alone, which is a person's text or one that was kept before messages had codes;
 * whatever is found now is a message, whose temperatures are parameters.
 */
export function sentenceIn(unit: TempUnit, sentence: string): string {
  const said = unit === 'C' ? sentence : inFahrenheit(sentence);
  return said.replace(/(\d) (?=[°%])/g, `$1${noBreak}`);
}

function inFahrenheit(sentence: string): string {
  return sentence.replace(temperaturesInText, (all: string, before = '', numbers: string, at: number) => {
    const after = sentence.slice(at + all.length, at + all.length + 12);
    const isDifference = before !== '' || differenceAfter.test(after);
    const turn = (text: string) => {
      const value = Number(text.replace(minus, '-'));
      const decimals = text.split('.')[1]?.length ?? 0;
      return plainNumber(isDifference ? differenceIn('F', value) : tempIn('F', value), decimals);
    };
    // A hyphen between two digits joins a range; one before a number alone is its sign.
    return `${before}${numbers.replace(/(^|[^\d])([-\u2212]?\d+(?:\.\d+)?)/g, (_all, before: string, one: string) => before + turn(one))} ${unitSigns.F}`;
  });
}
