/** Sentences of messages, every amount in the units this person measures in. */
import type { Say } from '../../../../shared/messages/message.ts';
import type { Render } from '../../../../shared/messages/renderer.ts';
import { usePlanUnits } from '../plan-units.ts';
import { useMessageReader } from './use-say.ts';

/** As `useSay`, with masses, volumes and lengths too as they were chosen. */
export function useSayMeasured(render: Render, siteId?: string): Say {
  const units = usePlanUnits();
  const reader = useMessageReader(siteId);
  return (said) => render(said, { ...reader, units });
}
