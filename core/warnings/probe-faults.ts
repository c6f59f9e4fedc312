/**
 * Probes that speak but cannot be believed: stuck, out of the pile, or wild. It never takes honest repeats for a stuck
 * probe: a real ground probe repeated one value for 12 hours (litter heap 2023, T10), nor a real step at a sunny top
 * for a fault (10.8 °C in an hour, T13).
 */
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { spikesNow, type Track } from '../estimate/track.ts';
import { degrees, duration } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { noProbeFinding } from './silence.ts';
import type { PileSnapshot } from './snapshot.ts';
import { isStuck, stuckAfterMs } from './stuck.ts';

/** Lonely spikes, faded by half each day, from which on a probe is failing; and as a share of what it says in a day. */
const failingSpikes = 1.8;
const failingShare = 0.01;

const places: readonly Position[] = ['core', 'top', 'base', 'edge', 'air'];

export function isFailing(track: Track, nowMs: number): boolean {
  if (track.spikes < failingSpikes) return false;
  const readingsPerDay = track.intervalMs > 0 ? (24 * msPerHour) / track.intervalMs : 24;
  return spikesNow(track, nowMs) >= Math.max(failingSpikes, failingShare * readingsPerDay);
}

export function addProbeFaults(findings: Finding[], pile: PileSnapshot): void {
  for (const position of places) {
    const track = pile.state.positions[position]?.temperature;
    const sight = pile.positions[position];
    if (track == null) continue;
    if (sight === null) {
      findings.push(noProbeFinding('probe-stuck', position), noProbeFinding('probe-out', position));
      continue;
    }
    const explainedBy = sight.silent ? 'probe-silent' : null;
    findings.push(stuck(pile, position, track, explainedBy), out(pile, position, track, explainedBy));
  }
}

const whyStuck = `Present when one value repeats for ${duration(stuckAfterMs)}; real probes in still ground have repeated one for 12 hours.`;

function stuck(pile: PileSnapshot, position: Position, track: Track, explainedBy: 'probe-silent' | null): Finding {
  const present = isStuck(track);
  return {
    kind: 'probe-stuck',
    position,
    evidence: explainedBy ? 'missing' : present ? 'present' : 'absent',
    severity: position === 'core' ? 'warning' : 'notice',
    seen: present
      ? `The ${position} probe has said exactly ${degrees(track.value)} for ${duration(track.atMs - track.sameSinceMs)}.`
      : 'Its value changes as it should.',
    todo: present ? 'Measure there by hand; if it differs, restart or change the probe.' : 'Nothing.',
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: present && position === 'core' ? 'What the pile does meanwhile is not known: it may be heating.' : null,
    why: whyStuck,
    explainedBy,
  };
}

function out(pile: PileSnapshot, position: Position, track: Track, explainedBy: 'probe-silent' | null): Finding {
  const failing = isFailing(track, pile.nowMs);
  const pulled = position !== 'air' && pile.state.positions[position]?.outSinceMs != null;
  return {
    kind: 'probe-out',
    position,
    evidence: explainedBy ? 'missing' : failing || pulled ? 'present' : 'absent',
    severity: position === 'core' ? 'warning' : 'notice',
    seen: failing
      ? `The ${position} probe throws in wild values that the next reading takes back.`
      : pulled
        ? `The ${position} probe reads like the air beside the pile.`
        : 'It reads like a place in the pile.',
    todo: failing
      ? 'Look at its cable and plugs for water, or change the probe.'
      : pulled
        ? 'See whether it has been pulled out, and push it back in to where it was.'
        : 'Nothing.',
    byMs: failing || pulled ? pile.nowMs + 4 * msPerHour : null,
    caution:
      (failing || pulled) && position === 'core'
        ? 'What the pile does meanwhile is not known: it may be heating.'
        : null,
    why:
      'Present when a place that was 5 °C and more above the air falls to the air within two hours and stays with it, or follows the air through its day; ' +
      'or after two and more lonely wild values in a day, one in a hundred of all. A turn lets out about half of the warmth, a pulled probe all of it.',
    explainedBy,
  };
}
