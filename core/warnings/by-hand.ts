/**
 * What a person noted that speaks against a pile, each kind a warning of its own: it counts at once and without any probe, for
 * no probe smells, and a hand in the pile knows more of its water than a balance does.
 */
import { type StageLimits, selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import type { HandKind } from '../../shared/warning.ts';
import { type HandSign, nothingNoted } from '../by-hand/hand-signs.ts';
import { foundWords } from '../by-hand/note-words.ts';
import { gravityOf, isThroughout, sampleMarginFrac } from '../by-hand/verdict.ts';
import { waterToAdd } from '../estimate/water-to-add.ts';
import { wetBasis } from '../physics/water-balance.ts';
import type { Noted } from '../profiles/noted.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { degrees, dustCaution, fireCaution, percent, wateringCaution } from '../words/words.ts';
import { howMuch, mixingWords } from './drying.ts';
import type { Finding } from './finding.ts';
import { perLimits } from './per-limits.ts';
import type { PileSnapshot } from './snapshot.ts';

export function handFindings(pile: PileSnapshot): readonly Finding[] {
  if (pile.handSigns === nothingNoted) return unsaid(pile.setup.limits);
  return pile.handSigns.map((sign) =>
    sign.state === 'bad' ? badFinding(pile, sign) : quietFinding(pile.setup.limits, sign),
  );
}

/** Of most piles nothing was noted. */
const unsaid = perLimits((limits): readonly Finding[] => nothingNoted.map((sign) => quietFinding(limits, sign)));

/** How soon to see to each: our own proposal [h]. */
const withinH: Record<HandKind, number> = { 'bad-smell': 6, 'wrong-growth': 12, 'hand-wet': 12, 'hand-dry': 6 };

function badFinding(pile: PileSnapshot, sign: HandSign): Finding {
  const { kind, note } = sign;
  if (note === null) return quietFinding(pile.setup.limits, sign);
  const hotC = fireHotC(pile);
  return {
    kind,
    position: null,
    evidence: 'present',
    severity: gravityOf(note.what),
    seen: `${foundWords(note.what)}${beside(pile, kind)}`,
    todo: hotC === null ? todoOf(pile, kind, note) : leaveClosed(hotC),
    byMs: hotC === null ? note.atMs + withinH[kind] * msPerHour : null,
    caution: hotC === null ? cautionOf(kind, note) : fireCaution,
    why: whyOf[kind](pile.setup.limits),
    explainedBy: null,
    noted: { atMs: note.atMs, by: note.by },
  };
}

function quietFinding(limits: StageLimits, { kind, state, note }: HandSign): Finding {
  return {
    kind,
    position: null,
    // Nothing noted is no doubt: what nobody noted does not stand, and what is withdrawn ends.
    evidence: 'absent',
    severity: 'warning',
    seen:
      note === null
        ? 'Nobody has noted it.'
        : state === 'answered'
          ? `${foundWords(note.what)} Something was done about it since; nobody has noted how it is now.`
          : foundWords(note.what),
    todo: state === 'answered' ? againWords[kind] : 'Nothing.',
    byMs: null,
    caution: null,
    why: whyOf[kind](limits),
    explainedBy: null,
    ...(note !== null && { noted: { atMs: note.atMs, by: note.by } }),
  };
}

/** What is asked once something was done about a sign. */
export const againWords: Record<HandKind, string> = {
  'hand-dry': 'Squeeze a handful from the core again, and write down how it feels.',
  'hand-wet': 'Squeeze a handful from the core again, and write down how it feels.',
  'bad-smell': 'Smell a handful again, and write down what you smell.',
  'wrong-growth': 'Look again, and write down what grows there.',
};

/** The hottest that is known of it, were it the last word of a probe now silent, where that is as hot as fire is feared; else null. */
function fireHotC({ positions }: PileSnapshot): number | null {
  const hottestC = Math.max(...pilePositions.map((position) => positions[position]?.temperatureC ?? -Infinity));
  return hottestC >= selfHeatingLadder[0].fromC ? hottestC : null;
}

function leaveClosed(hotC: number): string {
  return `Leave it closed: it was last measured at ${degrees(hotC)}. See to its heat first; this waits until it has cooled below ${degrees(selfHeatingLadder[0].fromC)}.`;
}

/** What the estimate says beside the hand, once a core is measured; else it says only what was laid. */
function beside(pile: PileSnapshot, kind: HandKind): string {
  const told = handAndEstimate(kind, pile.setup.limits, wetBasis(pile.water.waterKgKg), pile.core !== null);
  if (told === null) return '';
  return told.agree
    ? ` With that the estimate is ${percent(told.frac)} water.`
    : ` The estimate still says ${percent(told.frac)} water: hand and estimate disagree.`;
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

function todoOf(pile: PileSnapshot, kind: HandKind, { what }: Noted): string {
  const { water, setup } = pile;
  switch (kind) {
    case 'hand-dry':
      return `Squeeze a second handful, from the core. If it crumbles too, sprinkle ${howMuch(waterToAdd(water, setup.recipe, setup.limits))}, ${mixingWords(pile)}; then squeeze again.`;
    case 'hand-wet':
      return 'Turn it loosely, mix in dry bran or straw, and keep rain off; squeeze a handful again the next day.';
    case 'bad-smell':
      return what.kind === 'smell' && what.smells.includes('ammonia')
        ? 'Turn it loosely so that air gets in, and mix in dry straw; smell it again the next day. If it still smells so, do not use it, and get rid of it as your local rules ask.'
        : 'Turn it loosely so that air gets in, and mix in dry bran or straw where it drips; smell it again the next day. If it still smells so, do not use it, and get rid of it as your local rules ask.';
    case 'wrong-growth':
      return what.kind === 'growth' && isThroughout(what)
        ? 'Do not use it, and start no other pile from it. Where such growth goes all through a pile growers give it up: leave it covered, and get rid of it as your local rules and advisers ask.'
        : 'Take it out with a good margin into a bag you can close, and get rid of that as your local rules ask. Look again the next day, and write down what grows there.';
  }
}

/** About 20 ppm is smelt, 25 ppm is the most for a working day (NIOSH; both read second-hand). */
const ammoniaCaution =
  'Ammonia stings eyes and lungs: open the doors before you go in, stay upwind, and leave when it stings.';

const sporeCaution =
  'Coloured moulds throw up spores when they are touched: stand upwind, wear gloves and a close-fitting dust mask (FFP3, or at least N95), ' +
  'and do not bend over it to smell it. People with asthma, lung trouble or a weak immune system should leave it to others.';

const foulCaution = 'A foul heap in a closed shed uses up air: open the doors before you go in.';

function cautionOf(kind: HandKind, { what }: Noted): string {
  switch (kind) {
    case 'hand-dry':
      return `${wateringCaution} ${dustCaution}`;
    case 'hand-wet':
      return `${dustCaution} ${foulCaution}`;
    case 'bad-smell':
      return what.kind === 'smell' && what.smells.includes('ammonia')
        ? `${ammoniaCaution} ${dustCaution}`
        : `${foulCaution} ${dustCaution}`;
    case 'wrong-growth':
      return sporeCaution;
  }
}

const whyOf: Record<HandKind, (limits: StageLimits) => string> = {
  'hand-dry': perLimits(
    ({ moistureMinFrac }) =>
      `Present when a squeezed handful crumbles, or a weighed sample holds less than ${percent(moistureMinFrac - sampleMarginFrac)} water, until a later handful or sample says otherwise or the pile is watered. ` +
      'Squeezes are judged as composters usually do: two or three drops are right (read second-hand).',
  ),
  'hand-wet': perLimits(
    ({ moistureMaxFrac }) =>
      `Present when water runs out of a squeezed handful, or a weighed sample holds more than ${percent(moistureMaxFrac + sampleMarginFrac)} water, until a later handful or sample says otherwise or the pile is turned, spread or uncovered.`,
  ),
  'bad-smell': () =>
    'Present when somebody noted a rotten, sour or ammonia smell, or judged the smell bad, until a later note finds it good or the pile is turned, spread or uncovered. ' +
    'Such smells are taken for too wet or short of air (common practice, no source).',
  'wrong-growth': () =>
    'Present when somebody noted black, green or other coloured growth, or judged the look bad, until a later look finds white growth or judges it good. ' +
    'Turning does not end it: what was buried still grows. White growth noted within the hour stands beside the coloured. Extension bulletins discard coloured growth (read second-hand).',
};
