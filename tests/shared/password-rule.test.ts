import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { passwordLengths } from '../../shared/password-lengths.ts';
import { passwordProblem } from '../../shared/password-rule.ts';

const said = (problem: Message | undefined) => (problem === undefined ? '' : plainEnglish(problem));

describe('passwordProblem()', () => {
  const refused: [string, string, string[], RegExp][] = [
    ['eleven characters', 'mJ7,wLq0vXe', [], /at least 12/],
    ['a common word with digits and signs after it', 'Password1234!', [], /too easy/],
    ['a common word in disguise', 'P@$$w0rd!!!1', [], /too easy/],
    ['a common word twice', 'welcomewelcome', [], /repeats itself/],
    ['two common words and a year', 'SummerGarden2026', [], /too easy/],
    ['one letter', 'aaaaaaaaaaaaaaaa', [], /same few/],
    ['a piece again and again', 'h7$kq2h7$kq2', [], /repeats itself|same few/],
    ['a row of keys', 'qwertyuiopasdf', [], /too easy/],
    ['a row of keys backwards', 'poiuytrewq98765', [], /too easy/],
    ['columns of keys', '1qaz2wsx3edc4', [], /too easy/],
    ['the alphabet', 'abcdefghijklmnop', [], /too easy/],
    ['the name of the person with a year', 'Rosalind-1987!', ['Rosalind Weaver'], /too easy/],
    ['a short name twice with a year', 'una-una-2031', ['Una'], /too easy/],
    ['the name of this program', 'branhearth-2026', [], /too easy/],
    ['what is longer than can be taken', `${'the long bran heap '.repeat(14)}x`, [], /at most 256/],
  ];
  for (const [what, password, words, why] of refused) {
    test(`refuses ${what}`, () => expect(said(passwordProblem(password, words))).toMatch(why));
  }

  const taken: [string, string][] = [
    ['twelve random characters', 'mJ7,wLq0vXe4'],
    ['four words in small letters, without digit or sign', 'kettle willow copper lantern'],
    ['words of another script', 'тёплая куча за сараем'],
    ['a sentence with a common word in it', 'my dragon eats soggy bran at dawn'],
    ['the longest', `${'Kettle willow '.repeat(18)}copr`.slice(0, 256)],
  ];
  for (const [what, password] of taken) {
    test(`takes ${what}`, () => expect(passwordProblem(password, ['Ada'])).toBeUndefined());
  }

  test('refuses whatever is too short or too long, and takes nothing but a string as reason', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (password) => {
        const problem = passwordProblem(password);
        const { length } = [...password.normalize('NFC')];
        if (length < passwordLengths.min || length > passwordLengths.max)
          expect(said(problem)).toMatch(/^The password must have at/);
        else expect(problem === undefined || said(problem).length > 10).toBe(true);
      }),
      { seed: 7 },
    );
  });

  test('a longer password of the same kind is never refused where a shorter one of random letters was taken', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...'kvzjxmwpgbdyhf'), { minLength: 14, maxLength: 60 }), (contents) => {
        const password = contents.join('');
        if (passwordProblem(password) === undefined)
          expect(passwordProblem(`${password} lantern moss`)).toBeUndefined();
      }),
      { seed: 7 },
    );
  });
});
