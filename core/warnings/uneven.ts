/**
 * One part of a working pile far from another. It never minds the sun on a skin: it is the day's mean that counts, and
 * a cool base under a warm core is how beds lie.
 */
import { type Message, message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { unevenK } from '../estimate/apart.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { type CoreUnknown, coreUnknown, type PileSnapshot } from './snapshot.ts';

/** How long top and base must lie apart [h]: half a day, so that neither a night nor a sunny noon is one; our own choice, no source. */
const unevenAfterH = 12;
/**
 * A taller heap is no bed: cool at its foot and weathered at its top by nature [m]; our own choice: above any depth of a stage,
 * `stageLimits`.
 */
const tallestBedM = 0.6;

const why = message('why.uneven', { apartK: unevenK, unevenH: unevenAfterH, tallestCm: 100 * tallestBedM });
const near = message('warnings.uneven.seen.none');
const notBoth = message('warnings.uneven.seen.not-both');
const notKnown: Record<CoreUnknown, Message> = {
  'not-measured': message('warnings.uneven.seen.not-measured'),
  'not-believed': message('warnings.uneven.seen.not-believed'),
};

export function unevenFinding(pile: PileSnapshot): Finding<'uneven'> {
  const { state } = pile;
  const top = state.positions.top;
  const base = state.positions.base;
  const known = pile.coreKnown && pile.positions.top?.silent === false && pile.positions.base?.silent === false;
  const tall = pile.setup.recipe.depthM > tallestBedM;
  const apartK = (top?.hour.dayMeanC ?? 0) - (base?.hour.dayMeanC ?? 0);
  const present =
    known &&
    !tall &&
    state.apart.forH >= unevenAfterH &&
    (state.phase.now === 'active' || state.phase.now === 'warming');
  const cool = apartK > 0 ? 'base' : 'other';
  return {
    kind: 'uneven',
    position: null,
    evidence: known ? (present ? 'present' : 'absent') : 'missing',
    severity: 'notice',
    seen: present
      ? message('warnings.uneven.seen.apart', { apartK: Math.abs(apartK), cool })
      : known
        ? near
        : pile.coreKnown
          ? notBoth
          : notKnown[coreUnknown(pile)],
    todo: present ? message('warnings.uneven.todo', { cool }) : nothingToDo,
    byMs: present ? pile.nowMs + 24 * msPerHour : null,
    caution: present ? cautions.spores : null,
    why,
    explainedBy: pile.coreLost ?? (present ? state.apart.by : null),
  };
}
