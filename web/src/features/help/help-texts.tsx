/** What the help says: its own texts by the name of their section, and the messages that the rest of the program says too. */
import type { ComponentChildren } from 'preact';
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import { meaningTexts } from '../../../../shared/messages/made/en/meaning.ts';
import { pageHelpTexts } from '../../../../shared/messages/made/en/page-help.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { readinessTexts } from '../../../../shared/messages/made/en/readiness.ts';
import { squeezeTexts } from '../../../../shared/messages/made/en/squeeze.ts';
import { warningsTexts } from '../../../../shared/messages/made/en/warnings.ts';
import type { PageHelpParams } from '../../../../shared/messages/made/params/page-help.ts';
import type { Say, Temperature } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useSay } from '../../data/live/use-say.ts';
import { chapterPath } from './chapters.ts';
import { figures } from './figures.ts';

export type HelpCode = keyof PageHelpParams;
/** What has a heading of its own. */
export type SectionName = HelpCode extends infer Code
  ? Code extends `page-help.${infer Name}.title`
    ? Name
    : never
  : never;

type Link = (inner: ComponentChildren) => ComponentChildren;
const to =
  (href: string): Link =>
  (inner) => <a href={href}>{inner}</a>;

/** Marks and links that texts may hold. */
const tags = {
  b: (inner: ComponentChildren) => <b>{inner}</b>,
  probe: to(chapterPath('probe')),
  probes: to(chapterPath('probes')),
  squeeze: to(chapterPath('squeeze')),
  signs: to(chapterPath('signs')),
  stages: to(chapterPath('stages')),
  device: to(chapterPath('device')),
  heat: to('#heat'),
  toAccount: to('/account'),
  toIncoming: to('/incoming'),
  toKeys: to('/keys'),
  toNotifications: to('/notifications'),
  toPlan: to('/plan'),
  toPractice: to('/practice'),
  toProbes: to('/probes'),
  toRecords: to('/records'),
  toRetention: to('/retention'),
  toSeasons: to('/seasons'),
  toSettings: to('/settings'),
  toWeather: to('/weather'),
} as const;

/** What differs from place to place, and is given there. */
interface Given {
  readonly chapterText?: string;
  readonly fileText?: string;
  readonly fromC?: Temperature;
}
type All<Texts> = (Texts extends unknown ? (texts: Texts) => void : never) extends (all: infer Every) => void
  ? Every
  : never;
/** A figure or tag that a text wants and nobody has does not compile. */
const params: Omit<All<PageHelpParams[HelpCode]>, keyof Given> = { ...figures, ...tags };

export interface HelpWords {
  rich(code: HelpCode, given?: Given): ComponentChildren;
  text(code: HelpCode, given?: Given): string;
}

/** Of all figures and tags a text takes those that it names. */
export function useHelp(): HelpWords {
  const words = usePageTexts(pageHelpTexts, formatQuantity);
  const asked = (given: Given | undefined) => [{ ...params, ...given }] as unknown as [];
  return {
    rich: (code, given) => words.rich<'page-help.title'>(code as 'page-help.title', ...asked(given)),
    text: (code, given) => words.text<'page-help.title'>(code as 'page-help.title', ...asked(given)),
  };
}

const codes = Object.keys(pageHelpTexts) as HelpCode[];

/** Paragraphs (`p1`), items of a list (`l1`) and steps (`n1`) of a section, in the order of the catalogue. */
export function linesOf(name: string): readonly { readonly code: HelpCode; readonly kind: 'p' | 'l' | 'n' }[] {
  const before = `page-help.${name}.`;
  return codes.flatMap((code) => {
    const kind = code.startsWith(before) ? /^([pln])\d+$/.exec(code.slice(before.length))?.[1] : undefined;
    return kind === 'p' || kind === 'l' || kind === 'n' ? [{ code, kind }] : [];
  });
}

const renderHelp = rendererOf({
  ...cautionTexts,
  ...conditionTexts,
  ...meaningTexts,
  ...phaseTexts,
  ...readinessTexts,
  ...squeezeTexts,
  ...warningsTexts,
});

/** What is said elsewhere in the program, in the same words. */
export const useSayHelp = (): Say => useSay(renderHelp);
