/** Sentences of messages, in the units and the zone of whoever reads. */
import type { Reader as MessageReader, ReaderUnits } from '../../../../shared/messages/format.ts';
import { type Message, type Say, verbatim } from '../../../../shared/messages/message.ts';
import type { Render } from '../../../../shared/messages/renderer.ts';
import { language } from '../language.ts';
import { type Prefs, usePrefs } from '../prefs.ts';
import { inItsOwnWords } from '../said-now.ts';
import { useReader, useServerNow } from './use-installation.ts';

/** @returns The units of a person, of whom only that of temperature is asked. */
function unitsOf({ unit }: Pick<Prefs, 'unit'>): ReaderUnits {
  return { temperature: unit, mass: 'kg', volume: 'L', length: 'm' };
}

/**
 * @param render Made once for each module, of the topics that it shows: `rendererOf(phaseTexts)`.
 * @param siteId Whose zone moments are shown in, where the person wants that.
 */
export function useSay(render: Render, siteId?: string): Say {
  const reader = useMessageReader(siteId);
  return (said) => render(said, reader);
}

let knownZone: string | undefined;

/** Asked once: it takes a browser long, and hundreds of lines want to know. */
function zoneOfDevice(): string {
  knownZone ??= Intl.DateTimeFormat().resolvedOptions().timeZone;
  return knownZone;
}

export function useMessageReader(siteId?: string): MessageReader {
  const prefs = usePrefs();
  const nowMs = useServerNow();
  const { timeZone = zoneOfDevice(), hour12 } = useReader(siteId);
  return { language, timeZone, nowMs, units: unitsOf(prefs), hour12 };
}

/** Something that holds sentences and, under the same names, the messages that they were made of. */
type Spoken<Name extends string> = Readonly<Record<Name, string | null>> & {
  readonly messages?: Readonly<Partial<Record<Name, Message | null>>> | undefined;
};

export type Said = <Name extends string>(answer: Spoken<Name>, name: Name) => string;

/**
 * @param render Undefined until its texts are here: sentences stand in the server's own words.
 * @returns Says one sentence of an answer; in its own words where it was kept before messages had codes, and '' where it says nothing.
 * @example said(pile, 'condition')
 */
export function useSaid(render: Render | undefined, siteId?: string): Said {
  const reader = useMessageReader(siteId);
  return (answer, name) => {
    const said = render && answer.messages?.[name];
    return (render ?? inItsOwnWords)(said ?? verbatim(answer[name] ?? ''), reader);
  };
}
