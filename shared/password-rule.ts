/**
 * Which passwords are refused, and why.
 *
 * Length is what counts; no mix of kinds of letters is asked for. Refused is what is tried first: common words, however
 * dressed up, names that everybody here knows, and patterns. After NIST SP 800-63B, section 5.1.1.2 (a minimum length,
 * a list of expected values, no composition rules, room for long ones).
 */
import { type Message, message } from './messages/message.ts';
import { passwordLengths } from './password-lengths.ts';

/** What must be left of it once everything foreseeable counts as one letter. */
const leastOwnMessages = 8;
const leastDistinct = 6;

/** Words that such passwords are made of. Common practice, no source: written down from memory. */
const commonWords =
  `password passwort passwd parola contrasena motdepasse senha wachtwoord haslo admin administrator root user login
  welcome willkommen bienvenue letmein opensesame changeme default secret geheim iloveyou loveyou trustno sunshine
  princess dragon monkey football baseball soccer master shadow superman batman starwars pokemon michael jordan jennifer
  jessica daniel charlie thomas ashley summer winter spring autumn monday friday january december flower garden compost
  ferment starter saltmere branhearth farm tractor chicken hello please nothing whatever freedom computer internet
  google facebook samsung android iphone windows mustang ferrari harley cookie cheese banana orange purple diamond
  killer hunter ranger access server system test tester guest abc letmeinnow qwertz azerty`.split(/\s+/);

/** Rows of keyboards and runs of letters and digits, walked in either direction. */
const rows = [
  'abcdefghijklmnopqrstuvwxyz',
  '01234567890',
  'qwertyuiop',
  'asdfghjkl',
  'zxcvbnm',
  'qwertzuiopü',
  'asdfghjklöä',
  'yxcvbnm',
  'azertyuiop',
  'qsdfghjklm',
  'wxcvbn',
  '1qaz2wsx3edc4rfv5tgb6yhn7ujm',
  'qazwsxedcrfvtgbyhnujm',
];
const walks = [...rows, ...rows.map((row) => [...row].reverse().join(''))];

/** Letters that digits and signs commonly stand for. */
const disguises: Readonly<Record<string, string>> = {
  '0': 'o',
  '1': 'i',
  '3': 'e',
  '4': 'a',
  '5': 's',
  '7': 't',
  '@': 'a',
  $: 's',
  '!': 'i',
};

/** @returns What is wrong; undefined when it may be used. */
export function passwordProblem(password: string, installationWords: readonly string[] = []): Message | undefined {
  const contents = [...password.normalize('NFC')];
  const { min, max } = passwordLengths;
  if (contents.length < min) return message('password.too-short', { leastCount: min });
  if (contents.length > max) return message('password.too-long', { mostCount: max });
  const plain = contents.join('').toLowerCase();
  if (new Set(plain).size < leastDistinct) return message('password.few-characters');
  if (isRepeated(plain)) return message('password.repeats');
  const known = installationWords
    .flatMap((words) => words.toLowerCase().split(/[^\p{L}\p{N}]+/u))
    .filter((word) => word.length > 2);
  if (ownMessages(plain, known) < leastOwnMessages) {
    return message('password.guessable');
  }
  return undefined;
}

function isRepeated(text: string): boolean {
  // A text that stands again inside its own double, before its end, is made of one piece.
  return `${text}${text}`.indexOf(text, 1) < text.length;
}

/** Letters, where a common word, a name or a run of keys counts as one, read as it stands and undisguised. */
function ownMessages(text: string, known: readonly string[]): number {
  const undisguised = [...text].map((content) => disguises[content] ?? content).join('');
  return Math.min(...[text, undisguised].map((reading) => countOwn(reading, [...known, ...commonWords])));
}

function countOwn(text: string, words: readonly string[]): number {
  let own = 0;
  for (let at = 0; at < text.length; own += 1) at += Math.max(1, wordAt(text, at, words), walkAt(text, at));
  return own;
}

function wordAt(text: string, at: number, words: readonly string[]): number {
  return Math.max(0, ...words.filter((word) => text.startsWith(word, at)).map(({ length }) => length));
}

/** Length of the run of one letter that begins here; 0 when under three. */
function sameLetters(text: string, at: number): number {
  const content = String.fromCodePoint(text.codePointAt(at) ?? 0);
  let end = at;
  while (text.startsWith(content, end)) end += content.length;
  return end - at >= 3 * content.length ? end - at : 0;
}

/** Length of the year, the run of keys, or of one letter again and again, that begins here; runs under four count letter by letter. */
function walkAt(text: string, at: number): number {
  let longest = Math.max(/^(?:19|20)\d\d/.test(text.slice(at, at + 4)) ? 4 : 0, sameLetters(text, at));
  for (const walk of walks) {
    let length = 4;
    while (at + length <= text.length && walk.includes(text.slice(at, at + length))) length += 1;
    if (length > 4) longest = Math.max(longest, length - 1);
  }
  return longest;
}
