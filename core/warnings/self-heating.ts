/**
 * The ladder of self-heating, from danger zone to fire. It never clears while the core is silent, or a position that was
 * hot when last heard; and such a last word raises it too, for readings may come late, all at once, from a probe that is
 * silent by then.
 */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { type Rung, rungAt } from '../estimate/hazard-rung.ts';
import { followsOn } from '../estimate/track.ts';
import { cautions } from '../profiles/cautions.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { coreUnknownSays, type PileSnapshot } from './snapshot.ts';
import { believedMessage } from './value-message.ts';

const stepC = (rung: number) => ({ valueC: selfHeatingLadder[rung - 1]?.fromC ?? Number.NaN, decimals: 0 }) as const;
const why = message('why.self-heating', {
  step1C: stepC(1),
  step2C: stepC(2),
  step3C: stepC(3),
  step4C: stepC(4),
  step5C: stepC(5),
});
const noneNear = message('warnings.self-heating.seen.none');
const jumped = message('warnings.self-heating.seen.jumped');
const openedCaution = paragraph(cautions.spores, cautions.scald, cautions.fire);

export function selfHeatingFinding(pile: PileSnapshot): Finding<'self-heating'> {
  const heard = onLadder(pile, hottestBorneOut(pile, false));
  const { hottest, rung } = heard.rung > 0 ? heard : onLadder(pile, hottestBorneOut(pile, true));
  if (hottest === undefined || rung === 0) {
    const doubted = pile.doubtedHeat !== null && pile.doubtedHeat.tempC >= selfHeatingLadder[0].fromC;
    const unsure = pile.coreKnown ? hotUnheard(pile) : undefined;
    const known = pile.coreKnown && !doubted && unsure === undefined;
    return {
      kind: 'self-heating',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'danger',
      seen: known
        ? noneNear
        : unsure !== undefined
          ? message('warnings.self-heating.seen.unheard', { position: unsure })
          : pile.coreKnown
            ? jumped
            : coreUnknownSays(pile),
      todo: known ? nothingToDo : message('warnings.self-heating.todo.measure', { position: unsure ?? 'core' }),
      byMs: null,
      caution: null,
      why,
      explainedBy: pile.coreLost,
    };
  }
  const isSerious = rung > 1;
  return {
    kind: 'self-heating',
    position: null,
    evidence: 'present',
    severity: isSerious ? 'danger' : 'urgent',
    rung,
    seen: message(`warnings.self-heating.seen.${rung}`, { hottestPart: hottestSays(pile, hottest.position) }),
    todo: todoOf[rung],
    byMs: isSerious ? pile.nowMs : pile.nowMs + 2 * msPerHour,
    caution: isSerious ? cautions.fire : openedCaution,
    why,
    explainedBy: null,
  };
}

const todoOf: Record<Exclude<Rung, 0>, Message> = {
  1: message('warnings.self-heating.todo.1'),
  2: message('warnings.self-heating.todo.2'),
  3: message('warnings.self-heating.todo.3'),
  4: message('warnings.self-heating.todo.4'),
  5: message('warnings.self-heating.todo.5'),
};

const fromAway = selfHeatingLadder.findIndex(({ mayOpen }) => !mayOpen) + 1;
const ordersAway: ReadonlySet<string> = new Set(
  Object.entries(todoOf).flatMap(([rung, { code }]) => (Number(rung) >= fromAway ? [code] : [])),
);

/** Whether an order of this hazard leaves the pile to the fire service: then nobody is sent to it, not with a thermometer either. */
export const keepsPeopleAway = ({ code }: Message): boolean => ordersAway.has(code);

/**
 * From one reading to the next a position that heats itself moves no further than this [K]; our own choice: what the heap of
 * doubtedJumpK did in an hour, in round figures.
 */
const jumpK = 10;

function hottestSays({ positions, nowMs }: PileSnapshot, position: PilePosition): Message {
  const sight = positions[position];
  return sight === null
    ? message('warnings.value.none', { isFirst: true, position })
    : believedMessage(position, sight, nowMs, { isFirst: true });
}

/** Fire is called on a reading that follows on the one before, not on a wild one. */
function borneOut(pile: PileSnapshot, position: PilePosition): boolean {
  const track = pile.state.positions[position]?.temperature;
  return track != null && followsOn(track, jumpK);
}

/** A position whose last word was of heat, and which is silent or not borne out: that is no proof that the heat is gone. */
function hotUnheard(pile: PileSnapshot): PilePosition | undefined {
  return pilePositions.find((position) => (pile.positions[position]?.temperatureC ?? 0) >= selfHeatingLadder[0].fromC);
}

interface Hottest {
  readonly position: PilePosition;
  readonly tempC: number;
}

function onLadder(pile: PileSnapshot, hottest: Hottest | undefined): { hottest: Hottest | undefined; rung: Rung } {
  const was = hottest === undefined ? 0 : (pile.state.positions[hottest.position]?.rung ?? 0);
  return { hottest, rung: hottest === undefined ? 0 : rungAt(was, hottest.tempC) };
}

/** @param silent Of those that are silent, or of those that are heard. */
function hottestBorneOut(pile: PileSnapshot, silent: boolean): Hottest | undefined {
  let hottest: Hottest | undefined;
  for (const position of pilePositions) {
    const sight = pile.positions[position];
    if (sight === null || sight.silent !== silent || sight.temperatureC === null || !borneOut(pile, position)) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC) hottest = { position, tempC: sight.temperatureC };
  }
  return hottest;
}
