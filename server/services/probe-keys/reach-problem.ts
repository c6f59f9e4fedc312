import { filterProblem } from '../../../ingest/mapping/topic-filter.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { KeyReach } from '../../../shared/probe-key.ts';

export interface ReachProblem {
  /** JSON Pointer of the field at fault. */
  readonly pointer: string;
  /** What it must be. */
  readonly said: Message;
}

/**
 * What a schema cannot see of the reach of a key: each filter against MQTT 5 section 4.7, that none is of our own
 * topics, and that the key opens anything at all.
 * @param root The first level of our own topics.
 */
export function reachProblem({ site, foreign, hears }: KeyReach, root: string): ReachProblem | undefined {
  for (const [index, filter] of foreign.entries()) {
    const first = filter.split('/')[0];
    const said = first === root ? message('field.filter.ours', { rootName: root }) : filterProblem(filter);
    if (said !== undefined) return { pointer: `/foreign/${index}`, said };
  }
  if (site === null && hears === 'own' && foreign.length === 0) {
    return { pointer: '/site', said: message('field.key-opens-nothing') };
  }
  return undefined;
}
