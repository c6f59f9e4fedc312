/** Messages that are not about one alarm: a silent site, trouble of the server, the day, a test. */
import { sentenceIn } from '../../shared/temperature.ts';
import { duration } from '../words/words.ts';
import { clockWords, type MessageContent, type MessageReader, title } from './letter.ts';

export interface SiteNoticeSources {
  readonly sinceMs: number;
  readonly probeCount: number;
  readonly pileNames: readonly string[];
}

export interface SiteMessageParts {
  readonly answer: 'first-raise' | 'reminder-due' | 'handed-on' | 'not-reached' | 'cleared';
  readonly facts: SiteNoticeSources;
  readonly siteName: string;
  readonly nowMs: number;
  readonly reader: MessageReader;
  readonly notReached?: string | undefined;
}

export function siteMessage({ answer, facts, siteName, nowMs, reader, notReached }: SiteMessageParts): MessageContent {
  const since = clockWords(facts.sinceMs, nowMs, reader.timeZone);
  if (answer === 'cleared') {
    return {
      title: title(siteName, 'speaks again'),
      sentence: `${siteName} speaks again after ${duration(nowMs - facts.sinceMs)} of silence.`,
      parts: [{ label: 'Piles', text: `${listed(facts.pileNames)}: look at how they are now.` }],
    };
  }
  const why = {
    'first-raise': '',
    'reminder-due': ' Nobody has acknowledged it yet.',
    'handed-on': ' It comes to you because nobody has acknowledged it.',
    'not-reached': ` It comes to you because ${notReached ?? 'another person'} could not be reached.`,
  }[answer];
  return {
    title: title(siteName, 'all probes silent'),
    sentence: `${siteName} has fallen silent: none of its ${facts.probeCount} probes has spoken since ${since}.${why} Measure the piles by hand now, then look at the site’s power, radio or network.`,
    parts: [
      { label: 'Piles', text: `${listed(facts.pileNames)}.` },
      { label: 'Caution', text: 'What the piles do meanwhile is not known: they may be heating.' },
    ],
  };
}

export interface SystemFacts {
  /** One sentence: what is the matter with the server, and what to do. */
  readonly said: string;
  readonly todo: string;
  /** For the title: "disk nearly full". */
  readonly short: string;
}

export function systemMessage(facts: SystemFacts, over: boolean): MessageContent {
  return over
    ? { title: title('Branhearth', `over: ${facts.short}`), sentence: `This is over: ${facts.said}`, parts: [] }
    : { title: title('Branhearth', facts.short), sentence: `${facts.said} ${facts.todo}`, parts: [] };
}

/** Of a notice whose words cannot be read any more: that there was one is told all the same. */
export function lostLetter(pileName: string, siteName: string): MessageContent {
  return {
    title: title(pileName, 'look at it'),
    sentence: `There is something to tell of ${siteName === '' ? pileName : `${pileName} at ${siteName}`}, and what it was cannot be read any more. Look at the pile and measure it by hand.`,
    parts: [],
  };
}

export interface SummaryPile {
  readonly name: string;
  readonly siteName: string;
  readonly condition: string;
  readonly next: string;
  readonly warnings: number;
}

export function summaryMessage(piles: readonly SummaryPile[], reader: MessageReader): MessageContent {
  const warned = piles.filter(({ warnings }) => warnings > 0);
  const words = (text: string) => sentenceIn(reader.unit, text).replace(/\u00a0/g, ' ');
  const sentence =
    piles.length === 0
      ? 'No pile is laid just now.'
      : warned.length === 0
        ? `${counted(piles.length)} watched, and no warning stands.`
        : `${counted(piles.length)} watched; ${warned.length === 1 ? 'a warning stands' : 'warnings stand'} at ${listed(warned.map(({ name }) => name))}.`;
  // What needs a person comes first.
  const ordered = [...warned, ...piles.filter(({ warnings }) => warnings === 0)];
  return {
    title: title(
      'Today',
      piles.length === 0
        ? 'no pile laid'
        : `${counted(piles.length)}, ${warned.length === 0 ? 'no warning' : `${warned.length} with a warning`}`,
    ),
    sentence,
    parts: ordered.map(({ name, siteName, condition, next }) => ({
      label: `${name} at ${siteName}`,
      text: words(`${condition} ${next}`),
    })),
  };
}

export function testMessage(personName: string): MessageContent {
  return {
    title: 'Branhearth: a test, nothing is wrong',
    sentence: `This is the test that ${personName} asked for: warnings will reach you this way.`,
    parts: [],
  };
}

/** Names nobody and repeats nothing that anybody wrote: it may reach a stranger. @param code Eight digits. */
export function confirmationLetter(code: string): MessageContent {
  return {
    title: 'Branhearth: is this your address?',
    sentence: 'Somebody wants warnings about their piles sent to this address.',
    parts: [
      {
        label: 'If it was you',
        text: `Enter this code under “My notifications” within 24 hours: ${code.slice(0, 4)} ${code.slice(4)}`,
      },
      { label: 'If not', text: 'Do nothing. Nothing else is sent to this address.' },
    ],
  };
}

const counted = (count: number) => `${count} pile${count === 1 ? '' : 's'}`;

function listed(names: readonly string[]): string {
  if (names.length === 0) return 'no pile';
  if (names.length === 1) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
