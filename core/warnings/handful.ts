/**
 * A handful is asked for only with its caution: gloves and the cool side, and from a pile that is hot, or of which nobody knows how
 * hot it is, a fork.
 */
import { type MessageCode, paragraph } from '../../shared/messages/message.ts';
import { handInBelowC } from '../../shared/squeeze.ts';
import { cautions } from '../profiles/cautions.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import type { Finding } from './finding.ts';
import type { PileSnapshot } from './snapshot.ts';

const asksForHandful: ReadonlySet<string> = new Set<string>([
  'warnings.drying.todo.water',
  'warnings.drying.todo.squeeze',
  'warnings.stalling.todo.dry',
  'warnings.stalling.todo.idle',
  'warnings.stalling.todo.feel',
  'warnings.waterlogged.todo',
  'warnings.hand-dry.todo',
  'warnings.hand-wet.todo',
] satisfies readonly MessageCode[]);

export function withHandfulCaution(finding: Finding, pile: PileSnapshot): Finding {
  if (finding.evidence !== 'present' || !asksForHandful.has(finding.todo.code)) return finding;
  const handful = isKnownCool(pile) ? cautions.handful : cautions.hotHandful;
  return { ...finding, caution: paragraph(finding.caution, handful) };
}

function isKnownCool({ positions }: PileSnapshot): boolean {
  const measured = pilePositions.flatMap((position) => {
    const seen = positions[position];
    return seen?.temperatureC == null ? [] : [seen];
  });
  return (
    measured.some(({ silent }) => !silent) && measured.every(({ temperatureC }) => (temperatureC ?? 0) < handInBelowC)
  );
}
