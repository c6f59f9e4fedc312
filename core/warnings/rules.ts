/** The rule of every kind of condition, and what they find in one pile. */
import { type ConditionKind, conditionKinds, isProbeKind, type ProbeKind } from '../../shared/conditions/kinds.ts';
import { type Position, positions } from '../../shared/names.ts';
import { handRule } from './by-hand.ts';
import { chilledFinding } from './chilled.ts';
import { dryingFinding } from './drying.ts';
import type { Finding } from './finding.ts';
import { withHandfulCaution } from './handful.ts';
import { heatDamageFinding } from './heat-damage.ts';
import { heatDoubtedFinding } from './heat-doubted.ts';
import { overheatingFinding } from './overheating.ts';
import { overheatingSoonFinding } from './overheating-soon.ts';
import { outFinding, stuckFinding } from './probe-faults.ts';
import { probesSwappedFinding } from './probes-swapped.ts';
import { selfHeatingFinding } from './self-heating.ts';
import { silentFinding } from './silence.ts';
import type { PileSnapshot } from './snapshot.ts';
import { stallingFinding } from './stalling.ts';
import { unevenFinding } from './uneven.ts';
import { waterloggedFinding } from './waterlogged.ts';

/** Asked of a pile, or of each position; null where no probe was ever heard. */
type Rule<Kind extends ConditionKind> = Kind extends ProbeKind
  ? (pile: PileSnapshot, position: Position) => Finding<Kind> | null
  : (pile: PileSnapshot) => Finding<Kind>;

const rules: { readonly [Kind in ConditionKind]: Rule<Kind> } = {
  'self-heating': selfHeatingFinding,
  overheating: overheatingFinding,
  'heat-doubted': heatDoubtedFinding,
  'wrong-growth': handRule('wrong-growth'),
  'bad-smell': handRule('bad-smell'),
  'hand-wet': handRule('hand-wet'),
  'hand-dry': handRule('hand-dry'),
  'probe-silent': silentFinding,
  'probe-stuck': stuckFinding,
  'probe-out': outFinding,
  'overheating-soon': overheatingSoonFinding,
  'heat-damage': heatDamageFinding,
  drying: dryingFinding,
  waterlogged: waterloggedFinding,
  'probes-swapped': probesSwappedFinding,
  stalling: stallingFinding,
  chilled: chilledFinding,
  uneven: unevenFinding,
};

/** Of whom each is asked, worked out once: they are asked at every look. */
const inOrder = conditionKinds.map((kind) =>
  isProbeKind(kind) ? { ofPosition: rules[kind], ofPile: null } : { ofPosition: null, ofPile: rules[kind] },
);

/** What every rule finds, gravest first. */
export function findingsOf(pile: PileSnapshot): Finding[] {
  const findings: Finding[] = [];
  for (const { ofPosition, ofPile } of inOrder) {
    if (ofPosition === null) findings.push(withHandfulCaution(ofPile(pile), pile));
    else
      for (const position of positions) {
        const found = ofPosition(pile, position);
        if (found !== null) findings.push(found);
      }
  }
  return findings;
}
