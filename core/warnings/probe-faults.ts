/**
 * Probes that speak but cannot be believed: stuck, out of the pile, or wild. It never takes honest repeats for a stuck
 * probe: a real ground probe repeated one value for 12 hours (litter heap 2023, T10), nor a real step at a sunny top
 * for a fault (10.8 °C in an hour, T13).
 */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { isByHand } from '../estimate/hand-reading.ts';
import { wasWarmK } from '../estimate/out-of-pile.ts';
import { isStuck, stuckAfter } from '../estimate/stuck.ts';
import { isSilent, spikesNow, stepOf, type Track, throwsWild } from '../estimate/track.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { noProbeFinding } from './silence.ts';
import type { PileSnapshot } from './snapshot.ts';

/**
 * Lonely spikes, faded by half each day, from which on a probe is failing: two within some hours, for one alone may be anybody's hand on
 * the cable [-]; and as a share of what it says in a day, for one that speaks each minute has as many more chances [-]. A hand is on a
 * cable for minutes: a probe that is read seldom would hardly be read just then, so of that one tells. Our own choice, no source.
 */
const failingSpikes = 1.8;
const failingShare = 0.01;

/** A probe that speaks once an hour and is often not heard seems to speak every hour and a half; one that does so more seldom is read seldom [ms]. */
const readSeldomMs = 1.75 * msPerHour;

export function isFailing(track: Track, nowMs: number): boolean {
  if (track.intervalMs > readSeldomMs) return throwsWild(track, nowMs);
  if (track.spikes < failingSpikes) return false;
  const readingsPerDay = track.intervalMs > 0 ? (24 * msPerHour) / track.intervalMs : 24;
  return spikesNow(track, nowMs) >= Math.max(failingSpikes, failingShare * readingsPerDay);
}

const whyNotStuck = message('why.probe-stuck.coarse');
const whysStuck = new Map<number, Message>();

/** One message for each of the few lengths there are: it is asked for at every look. */
function whyStuck(stuckMs: number): Message {
  const why = whysStuck.get(stuckMs) ?? message('why.probe-stuck', { stuckMs });
  whysStuck.set(stuckMs, why);
  return why;
}

const changes = message('warnings.probe-stuck.seen.none');
const compare = message('warnings.probe-stuck.todo');

export function stuckFinding(pile: PileSnapshot, position: Position): Finding<'probe-stuck'> | null {
  const followed = pile.state.positions[position];
  const track = followed?.temperature;
  const sight = pile.positions[position];
  if (followed == null || track == null) return null;
  if (sight === null || isByHand(followed)) return noProbeFinding('probe-stuck', position);
  const explainedBy = isSilent(track, pile.nowMs) ? 'probe-silent' : null;
  const afterMs = stuckAfter(track, position);
  const present = isStuck(track, position);
  const isKnown = Number.isFinite(afterMs);
  return {
    kind: 'probe-stuck',
    position,
    evidence: explainedBy || !isKnown ? 'missing' : present ? 'present' : 'absent',
    severity: position === 'core' ? 'warning' : 'notice',
    seen: present
      ? message('warnings.probe-stuck.seen.stuck', {
          position,
          tempC: track.value,
          sameMs: track.atMs - track.sameSinceMs,
        })
      : isKnown
        ? changes
        : message('warnings.probe-stuck.seen.coarse', { position, stepK: stepOf(track) }),
    todo: present ? compare : nothingToDo,
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: present && position === 'core' ? cautions.unknownHeat : null,
    why: isKnown ? whyStuck(afterMs) : whyNotStuck,
    explainedBy,
  };
}

const whyOut = message('why.probe-out', { warmK: wasWarmK });
const seenInPile = message('warnings.probe-out.seen.none');
const seeToCable = message('warnings.probe-out.todo.failing');
const pushBack = message('warnings.probe-out.todo.pulled');

export function outFinding(pile: PileSnapshot, position: Position): Finding<'probe-out'> | null {
  const followed = pile.state.positions[position];
  const track = followed?.temperature;
  const sight = pile.positions[position];
  if (followed == null || track == null) return null;
  if (sight === null || isByHand(followed)) return noProbeFinding('probe-out', position);
  const explainedBy = isSilent(track, pile.nowMs) ? 'probe-silent' : null;
  const failing = isFailing(track, pile.nowMs);
  const pulled = position !== 'air' && pile.state.positions[position]?.out.sinceMs != null;
  return {
    kind: 'probe-out',
    position,
    evidence: explainedBy ? 'missing' : failing || pulled ? 'present' : 'absent',
    severity: position === 'core' ? 'warning' : 'notice',
    seen: failing
      ? message(track.spikes < failingSpikes ? 'warnings.probe-out.seen.jumped' : 'warnings.probe-out.seen.failing', {
          position,
        })
      : pulled
        ? message('warnings.probe-out.seen.pulled', { position })
        : seenInPile,
    todo: failing ? seeToCable : pulled ? pushBack : nothingToDo,
    byMs: failing || pulled ? pile.nowMs + 4 * msPerHour : null,
    caution: (failing || pulled) && position === 'core' ? cautions.unknownHeat : null,
    why: whyOut,
    explainedBy,
  };
}
