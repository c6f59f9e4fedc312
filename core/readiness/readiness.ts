/**
 * What speaks for a batch being done, and what is still to be seen. It never says that a batch is done: the last word
 * is a person's, after smelling and looking.
 */

import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { lossAfterH, type PastHeat } from '../estimate/heat-memory.ts';
import { lostCultureSigns } from '../estimate/past-heat-message.ts';
import { cameK, nearHeldH, nearK, reheatK, turnWatchedH } from '../profiles/passed-heat.ts';
import { judgedMessage, type SmellAndLook } from './smell-and-look.ts';

export interface ReadinessFacts {
  readonly peakC: number | null;
  readonly peakExcessK: number;
  /** Hours in a row within 5 °C of the air, up to now. */
  readonly nearAirH: number;
  /** Hours since the last turn after the heat had passed; null when there was none. */
  readonly sinceLateTurnH: number | null;
  /** Highest rise since that turn [K]. */
  readonly riseSinceTurnK: number;
  /** The position that was hottest for longest, and its limit of loss [°C]; null where nothing was measured. */
  readonly heat: PastHeat | null;
  readonly lossC: number;
  /** Whether a person has confirmed smell and look, and noted nothing bad since. */
  readonly confirmed: boolean;
  readonly judged: SmellAndLook;
}

interface ReadinessPoint {
  readonly what: 'heat-came' | 'judged-since-overheated' | 'back-near-air' | 'turn-brought-no-heat' | 'smell-and-look';
  readonly seen: boolean;
  readonly says: Message;
}

export interface Readiness {
  readonly proposal: 'not-yet' | 'turn-and-see' | 'smell-and-look' | 'confirmed';
  readonly points: readonly ReadinessPoint[];
  readonly next: Message;
}

/** Said only of a batch that was too hot for too long; it stays said when a person has judged it. */
function overheatedPoint({ heat, lossC }: ReadinessFacts): ReadinessPoint[] {
  if (heat === null || heat.lossH < lossAfterH) return [];
  const { position, lossH, peakC } = heat;
  const was = { position, lossC, lossH, peakC };
  const seen = heat.unjudged === null;
  const says = seen
    ? message('readiness.point.overheated.judged', was)
    : message('readiness.point.overheated.unjudged', was);
  return [{ what: 'judged-since-overheated', seen, says }];
}

export function readinessOf(facts: ReadinessFacts): Readiness {
  const came = facts.peakExcessK >= cameK;
  const gone = came && facts.nearAirH >= nearHeldH;
  const watched = facts.sinceLateTurnH !== null && facts.sinceLateTurnH >= turnWatchedH;
  const still = gone && watched && facts.riseSinceTurnK < reheatK;
  const aboveK = { valueK: facts.peakExcessK, decimals: 0 } as const;
  const points: ReadinessPoint[] = [
    {
      what: 'heat-came',
      seen: came,
      says: came ? message('readiness.point.heat-came.seen', { aboveK }) : notCome,
    },
    ...overheatedPoint(facts),
    { what: 'back-near-air', seen: gone, says: gone ? backNearAir : notNearAir },
    {
      what: 'turn-brought-no-heat',
      seen: still,
      says: still ? turn.still : facts.sinceLateTurnH === null ? turn.never : watched ? turn.warmed : turn.watched,
    },
    { what: 'smell-and-look', seen: facts.confirmed, says: facts.confirmed ? confirmed : judgedPoint(facts) },
  ];
  return { points, ...proposalOf(facts, { came, gone, still }) };
}

/** Turned since its heat passed, and not a day ago: whoever just did it is not asked for it again. */
const isWatching = ({ sinceLateTurnH }: ReadinessFacts) => sinceLateTurnH !== null && sinceLateTurnH < turnWatchedH;

function proposalOf(
  facts: ReadinessFacts,
  { came, gone, still }: Readonly<Record<'came' | 'gone' | 'still', boolean>>,
): Pick<Readiness, 'proposal' | 'next'> {
  if (facts.heat?.unjudged != null) return { proposal: gone ? 'smell-and-look' : 'not-yet', next: next.smellAfterHeat };
  if (!gone) return { proposal: 'not-yet', next: came ? next.waitForCool : next.waitForHeat };
  if (!still) return { proposal: 'turn-and-see', next: isWatching(facts) ? next.seeTurn : next.turnAndSee };
  const isBad = facts.judged.smell === 'bad' || facts.judged.look === 'bad';
  if (isBad) return { proposal: 'smell-and-look', next: next.seeToBad };
  return facts.confirmed
    ? { proposal: 'confirmed', next: next.goOn }
    : { proposal: 'smell-and-look', next: next.smellAndLook };
}

function judgedPoint({ judged }: ReadinessFacts): Message {
  const said = message('readiness.point.person.judged', { judgedPart: judgedMessage(judged) });
  return judged.smell === 'good' && judged.look === 'good' ? paragraph(said, stillToSay) : said;
}

const notCome = message('readiness.point.heat-came.unseen');
const backNearAir = message('readiness.point.back-near-air.seen', { nearK });
const notNearAir = message('readiness.point.back-near-air.unseen', { nearK });
const turn = {
  still: message('readiness.point.turn.still'),
  never: message('readiness.point.turn.never'),
  warmed: message('readiness.point.turn.warmed'),
  watched: message('readiness.point.turn.watched'),
};
const confirmed = message('readiness.point.person.confirmed');
const stillToSay = message('readiness.point.person.still-to-say');
const next = {
  smellAfterHeat: paragraph(message('readiness.next.smell-after-heat'), lostCultureSigns),
  waitForHeat: message('readiness.next.wait-for-heat'),
  waitForCool: message('readiness.next.wait-for-cool'),
  turnAndSee: message('readiness.next.turn-and-see'),
  seeTurn: message('readiness.next.see-turn'),
  seeToBad: message('readiness.next.see-to-bad'),
  goOn: message('readiness.next.go-on'),
  smellAndLook: message('readiness.next.smell-and-look'),
};
