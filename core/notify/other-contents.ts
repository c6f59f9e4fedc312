/** Messages that are not about one alarm: a silent site, trouble of the server, the day, a test. */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { reachedInVain } from './alarm-content.ts';
import { labels, type NoticeContent } from './notice-content.ts';

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
  readonly notReached?: string | undefined;
}

const allSilent = message('notice.site.title-silent');
const speaksAgain = message('notice.site.title-over');
const measureByHand = message('notice.site.todo');
const siteCaution = message('notice.site.caution');

export function siteMessage({ answer, facts, siteName, nowMs, notReached }: SiteMessageParts): NoticeContent {
  const piles = { pileCount: facts.pileNames.length, pilesList: facts.pileNames };
  if (answer === 'cleared') {
    return {
      title: { name: siteName, what: speaksAgain },
      sentence: message('notice.site.over', { siteName, silentMs: nowMs - facts.sinceMs }),
      parts: [{ label: labels.piles, text: message('notice.site.piles-over', piles) }],
    };
  }
  const why = {
    'first-raise': null,
    'reminder-due': message('notice.site.reminder'),
    'handed-on': message('notice.site.handed-on'),
    'not-reached': message('notice.site.not-reached', reachedInVain(notReached)),
  }[answer];
  const silent = message('notice.site.silent', {
    siteName,
    probeCount: facts.probeCount,
    sinceAtMs: facts.sinceMs,
  });
  return {
    title: { name: siteName, what: allSilent },
    sentence: paragraph(silent, why, measureByHand),
    parts: [
      { label: labels.piles, text: message('notice.site.piles', piles) },
      { label: labels.caution, text: siteCaution },
    ],
  };
}

export interface SystemFacts {
  /** One sentence: what is the matter with the server, and what to do. */
  readonly said: Message;
  readonly todo: Message;
  /** For the title: "disk nearly full". */
  readonly short: Message;
}

const ourName = 'Branhearth';

export function systemMessage({ said, todo, short }: SystemFacts, over: boolean): NoticeContent {
  return over
    ? {
        title: { name: ourName, what: message('notice.system.title-over', { shortPart: short }) },
        sentence: message('notice.system.over', { saidPart: said }),
        parts: [],
      }
    : { title: { name: ourName, what: short }, sentence: paragraph(said, todo), parts: [] };
}

/** Of a notice whose words cannot be read any more: that there was one is said all the same. */
export function lostContent(pileName: string, siteName: string): NoticeContent {
  return {
    title: { name: pileName, what: message('notice.lost.title') },
    sentence: message('notice.lost', { pileName, siteName, isSiteKnown: siteName !== '' }),
    parts: [],
  };
}

export interface SummaryPile {
  readonly name: string;
  readonly siteName: string;
  readonly condition: Message;
  readonly next: Message;
  readonly warnings: number;
}

export function summaryMessage(piles: readonly SummaryPile[]): NoticeContent {
  const warned = piles.filter(({ warnings }) => warnings > 0);
  const counts = { pileCount: piles.length, warnedCount: warned.length };
  // What needs a person comes first.
  const ordered = [...warned, ...piles.filter(({ warnings }) => warnings === 0)];
  return {
    title: {
      name: 'Today',
      what: piles.length === 0 ? message('notice.summary.title-none') : message('notice.summary.title', counts),
    },
    sentence:
      piles.length === 0
        ? message('notice.summary.none')
        : warned.length === 0
          ? message('notice.summary.calm', { pileCount: piles.length })
          : message('notice.summary.warned', { ...counts, pilesList: warned.map(({ name }) => name) }),
    parts: ordered.map(({ name, siteName, condition, next }) => ({
      label: message('notice.pile-at', { pileName: name, siteName }),
      text: paragraph(condition, next),
    })),
  };
}

/** @param due Why now, and by when. */
export function measureMessage(pileName: string, siteName: string, due: Message): NoticeContent {
  return {
    title: { name: pileName, what: message('notice.measure.title') },
    sentence: paragraph(message('notice.measure', { pileName, siteName }), due),
    parts: [],
  };
}

export function testMessage(personName: string): NoticeContent {
  return {
    title: { name: ourName, what: message('notice.test.title') },
    sentence: message('notice.test', { personName }),
    parts: [],
  };
}

/** Names nobody and repeats nothing that anybody wrote: it may reach a stranger. @param code Eight digits. */
export function confirmationContent(code: string): NoticeContent {
  const codeText = `${code.slice(0, 4)} ${code.slice(4)}`;
  return {
    title: { name: ourName, what: message('notice.confirm.title') },
    sentence: message('notice.confirm'),
    parts: [
      { label: labels.ifYou, text: message('notice.confirm.if-you', { codeText }) },
      { label: labels.ifNot, text: message('notice.confirm.if-not') },
    ],
  };
}
