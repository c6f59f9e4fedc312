/** Asks the server for a family, from one member both ways or of the whole farm. */
import { lineageAnswerSchema } from '../../../../shared/contracts/lineage.ts';
import { ask } from '../../data/client.ts';

export interface LineageAsk {
  /** "lot:<id>", "batch:<id>" or "use:<id>"; the whole farm without it. */
  readonly start?: string | undefined;
  readonly way: 'up' | 'down' | 'both';
}

export function getLineage({ start, way }: LineageAsk) {
  const query = new URLSearchParams({ ...(start ? { start } : {}), way });
  return ask(lineageAnswerSchema, `/api/lineage?${query}`);
}
