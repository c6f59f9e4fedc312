/**
 * What a person noted that speaks against a pile, each kind a warning of its own: it counts at once and without any probe, for
 * no probe smells, and a hand in the pile knows more of its water than a balance does.
 */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { type StageLimits, selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import type { HandKind } from '../../shared/warning.ts';
import { type HandSign, nothingNoted } from '../by-hand/hand-signs.ts';
import { foundMessage } from '../by-hand/note-message.ts';
import { gravityOf, isThroughout, sampleMarginFrac } from '../by-hand/note-sign.ts';
import { waterToAdd } from '../estimate/water-to-add.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { cautions } from '../profiles/cautions.ts';
import type { Noted } from '../profiles/noted.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { howMuch, isHot } from './drying.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { perLimits } from './per-limits.ts';
import type { PileSnapshot } from './snapshot.ts';

/** The rule of one kind of sign. */
export function handRule<Kind extends HandKind>(kind: Kind): (pile: PileSnapshot) => Finding<Kind> {
  const signOf = (signs: readonly HandSign[]) => signs.find((sign) => sign.kind === kind) ?? null;
  /** Of most piles nothing was noted. */
  const unsaid = perLimits((limits) => quietFinding(limits, kind, null));
  return (pile) => {
    if (pile.handSigns === nothingNoted) return unsaid(pile.setup.limits);
    const sign = signOf(pile.handSigns);
    return sign?.state === 'bad' ? badFinding(pile, kind, sign) : quietFinding(pile.setup.limits, kind, sign);
  };
}

/** How soon to see to each: our own proposal [h]. */
const withinH: Record<HandKind, number> = { 'bad-smell': 6, 'wrong-growth': 12, 'hand-wet': 12, 'hand-dry': 6 };

function badFinding<Kind extends HandKind>(pile: PileSnapshot, kind: Kind, sign: HandSign): Finding<Kind> {
  const { note } = sign;
  if (note === null) return quietFinding(pile.setup.limits, kind, sign);
  const hotC = fireHotC(pile);
  return {
    kind,
    position: null,
    evidence: 'present',
    severity: gravityOf(note.what),
    seen: paragraph(foundMessage(note.what), beside(pile, kind)),
    todo: hotC === null ? todoOf(pile, kind, note) : leaveClosed(hotC),
    byMs: hotC === null ? note.atMs + withinH[kind] * msPerHour : null,
    caution: hotC === null ? cautionOf(kind, note) : cautions.fire,
    why: whyOf[kind](pile.setup.limits),
    explainedBy: null,
    noted: { atMs: note.atMs, by: note.by },
  };
}

function quietFinding<Kind extends HandKind>(limits: StageLimits, kind: Kind, sign: HandSign | null): Finding<Kind> {
  const note = sign?.note ?? null;
  const isAnswered = sign?.state === 'answered';
  return {
    kind,
    position: null,
    // Nothing noted is no doubt: what nobody noted does not stand, and what is withdrawn ends.
    evidence: 'absent',
    severity: 'warning',
    seen: note === null ? nobody : isAnswered ? paragraph(foundMessage(note.what), answered) : foundMessage(note.what),
    todo: isAnswered ? askedAgain[kind] : nothingToDo,
    byMs: null,
    caution: null,
    why: whyOf[kind](limits),
    explainedBy: null,
    ...(note !== null && { noted: { atMs: note.atMs, by: note.by } }),
  };
}

/** What is asked once something was done about a sign. */
export const askedAgain: Record<HandKind, Message> = {
  'hand-dry': message('warnings.hand-dry.again'),
  'hand-wet': message('warnings.hand-wet.again'),
  'bad-smell': message('warnings.bad-smell.again'),
  'wrong-growth': message('warnings.wrong-growth.again'),
};

const nobody = message('warnings.hand.seen.nobody');
const answered = message('warnings.hand.seen.answered');

/** The hottest that is known of it, were it the last word of a probe now silent, where that is as hot as fire is feared; else null. */
function fireHotC({ positions }: PileSnapshot): number | null {
  const hottestC = Math.max(...pilePositions.map((position) => positions[position]?.temperatureC ?? -Infinity));
  return hottestC >= selfHeatingLadder[0].fromC ? hottestC : null;
}

function leaveClosed(hotC: number): Message {
  return message('warnings.hand.todo.leave-closed', { hotC, belowC: selfHeatingLadder[0].fromC });
}

/** What the estimate says beside the hand, once a core is measured; else it says only what was laid. */
function beside(pile: PileSnapshot, kind: HandKind): Message | null {
  const beside = handAndEstimate(kind, pile.setup.limits, wetBasis(pile.water.waterKgKg), pile.core !== null);
  if (beside === null) return null;
  const { agree, frac: moistureFrac } = beside;
  return agree
    ? message('warnings.hand.seen.agree', { moistureFrac })
    : message('warnings.hand.seen.disagree', { moistureFrac });
}

/** Whether the estimate bears out what hand or scales said of the water; null where it has nothing to go by. */
export function handAndEstimate(
  kind: HandKind,
  limits: Pick<StageLimits, 'moistureMinFrac' | 'moistureMaxFrac'>,
  frac: number,
  isMeasured: boolean,
): { readonly agree: boolean; readonly frac: number } | null {
  if (!isMeasured || (kind !== 'hand-dry' && kind !== 'hand-wet')) return null;
  const agree = kind === 'hand-dry' ? frac < limits.moistureMinFrac : frac > limits.moistureMaxFrac;
  return { agree, frac };
}

function todoOf(pile: PileSnapshot, kind: HandKind, { what }: Noted): Message {
  const { water, setup } = pile;
  switch (kind) {
    case 'hand-dry':
      return message('warnings.hand-dry.todo', {
        amountPart: howMuch(waterToAdd(water, setup.recipe, setup.limits)),
        isHot: isHot(pile),
      });
    case 'hand-wet':
      return loosen;
    case 'bad-smell':
      return smellsOfAmmonia(what) ? airAndStraw : airAndBran;
    case 'wrong-growth':
      return what.kind === 'growth' && isThroughout(what) ? giveUp : takeOut;
  }
}

const smellsOfAmmonia = (what: Noted['what']) => what.kind === 'smell' && what.smells.includes('ammonia');

const loosen = message('warnings.hand-wet.todo');
const airAndStraw = message('warnings.bad-smell.todo.ammonia');
const airAndBran = message('warnings.bad-smell.todo.other');
const giveUp = message('warnings.wrong-growth.todo.throughout');
const takeOut = message('warnings.wrong-growth.todo.patches');

function cautionOf(kind: HandKind, { what }: Noted): Message {
  switch (kind) {
    case 'hand-dry':
      return paragraph(cautions.watering, cautions.spores);
    case 'hand-wet':
      return paragraph(cautions.spores, cautions.foulAir);
    case 'bad-smell':
      return paragraph(smellsOfAmmonia(what) ? cautions.ammonia : cautions.foulAir, cautions.spores);
    case 'wrong-growth':
      return cautions.colouredMould;
  }
}

const whySmell = message('why.bad-smell');
const whyGrowth = message('why.wrong-growth');

const whyOf: Record<HandKind, (limits: StageLimits) => Message> = {
  'hand-dry': perLimits(({ moistureMinFrac }) =>
    message('why.hand-dry', { sampleFrac: moistureMinFrac - sampleMarginFrac }),
  ),
  'hand-wet': perLimits(({ moistureMaxFrac }) =>
    message('why.hand-wet', { sampleFrac: moistureMaxFrac + sampleMarginFrac }),
  ),
  'bad-smell': () => whySmell,
  'wrong-growth': () => whyGrowth,
};
