/** Probes that have stopped talking, each against its own rhythm. */
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { silentAfterMs, type Track } from '../estimate/track.ts';
import { degrees, duration } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { leadingTrack, type PileSnapshot } from './snapshot.ts';

const places: readonly Position[] = ['core', 'top', 'base', 'edge', 'air'];

export function addSilences(findings: Finding[], pile: PileSnapshot): void {
  for (const position of places) {
    const place = pile.state.positions[position];
    const sight = pile.positions[position];
    const track = place === null ? null : leadingTrack(place);
    if (track === null) continue;
    findings.push(
      sight === null ? noProbeFinding('probe-silent', position) : silence(pile, position, track, sight.silent),
    );
  }
}

/** Of a place that was measured, and has no probe now: whatever stood of its probe ends. */
export function noProbeFinding(kind: 'probe-silent' | 'probe-stuck' | 'probe-out', position: Position): Finding {
  return {
    kind,
    position,
    evidence: 'absent',
    severity: 'notice',
    seen: 'No probe is there now.',
    todo: 'Nothing.',
    byMs: null,
    caution: null,
    why: whyNoProbe,
    explainedBy: null,
  };
}

const whyNoProbe = 'Only a probe that has spoken since it was given to this place can be silent, stuck or out of it.';

function silence(pile: PileSnapshot, position: Position, track: Track, silent: boolean): Finding {
  const core = position === 'core';
  const tempC = pile.positions[position]?.temperatureC ?? null;
  const last = !silent || tempC === null ? '' : ` Its last reading was ${degrees(tempC)}.`;
  return {
    kind: 'probe-silent',
    position,
    evidence: silent ? 'present' : 'absent',
    severity: core ? 'warning' : 'notice',
    seen: silent
      ? `The ${position} probe has said nothing for ${duration(pile.nowMs - track.heardAtMs)}.${last}`
      : 'It speaks as often as it is used to.',
    todo: silent ? (core ? handFirst : 'Look at the probe: battery, cable, radio.') : 'Nothing.',
    byMs: silent ? pile.nowMs + (core ? 2 : 24) * msPerHour : null,
    caution: silent && core ? 'What the pile does meanwhile is not known: it may be heating.' : null,
    why: whyOf(track),
    explainedBy: null,
  };
}

const handFirst = 'Measure the core by hand now, then look at the probe: battery, cable, radio.';

/** Made again only when its rhythm has moved: it is asked for every minute. */
const made = new WeakMap<Track, { readonly intervalMs: number; readonly missed: number; readonly words: string }>();

function whyOf(track: Track): string {
  const { intervalMs, missed } = track;
  const kept = made.get(track);
  if (
    kept !== undefined &&
    Math.abs(kept.intervalMs - intervalMs) <= 0.02 * intervalMs &&
    Math.abs(kept.missed - missed) < 0.005
  ) {
    return kept.words;
  }
  const allowedMs = silentAfterMs(track);
  const words =
    track.intervalMs === 0
      ? `Present when nothing is heard for ${duration(allowedMs)}; its rhythm is not known yet.`
      : `It usually speaks every ${duration(track.intervalMs)}; present when nothing is heard for ${duration(allowedMs)}: about three of those, at least half an hour, and more for a probe that often loses messages.`;
  made.set(track, { intervalMs, missed, words });
  return words;
}
