/** Sentences of messages, in the units and the zone of whoever reads. */
import type { ReaderUnits } from '../../../shared/messages/format.ts';
import type { Say } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { useReader, useServerNow } from './live/use-installation.ts';
import { type Prefs, usePrefs } from './prefs.ts';

/** @returns The units of a person, of whom only that of temperature is asked. */
export function unitsOf({ unit }: Pick<Prefs, 'unit'>): ReaderUnits {
  return { temperature: unit, mass: 'kg', volume: 'L', length: 'm' };
}

/**
 * @param render Made once for each module, of the topics that it shows: `rendererOf(phaseTexts)`.
 * @param siteId Whose zone moments are told in, where the person wants that.
 */
export function useSay(render: Render, siteId?: string): Say {
  const prefs = usePrefs();
  const nowMs = useServerNow();
  const { timeZone = 'UTC' } = useReader(siteId);
  return (said) => render(said, { language: 'en', timeZone, nowMs, units: unitsOf(prefs) });
}
