/**
 * core/warn/silence.ts: probes that have stopped talking, each against its own rhythm.
 *
 * Takes:  one look at the pile.
 * Gives:  one finding per place that ever had a probe.
 */
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Finding } from '../judge/assessment.ts';
import { silentAfterMs } from '../judge/track.ts';
import { type Look, leadingTrack } from './look.ts';
import { degrees, duration } from './words.ts';

const places: readonly Position[] = ['core', 'top', 'base', 'edge', 'air'];

export function silenceFindings(look: Look): Finding[] {
  return places.flatMap((position) => {
    const place = look.state.positions[position];
    const sight = look.positions[position];
    const track = place === null ? null : leadingTrack(place);
    if (track === null || sight === null) return [];
    const quietMs = look.nowMs - track.heardAtMs;
    const allowed = duration(silentAfterMs(track));
    const last = place?.temperature ? ` Its last reading was ${degrees(place.temperature.value)}.` : '';
    return [
      {
        kind: 'probe-silent',
        position,
        evidence: sight.silent ? 'present' : 'absent',
        severity: position === 'core' ? 'warning' : 'notice',
        seen: sight.silent
          ? `The ${position} probe has said nothing for ${duration(quietMs)}.${last}`
          : `The ${position} probe spoke ${duration(quietMs)} ago.`,
        todo: sight.silent
          ? position === 'core'
            ? 'Measure the core by hand now, then look at the probe: battery, cable, radio.'
            : 'Look at the probe: battery, cable, radio.'
          : 'Nothing.',
        byMs: sight.silent ? look.nowMs + (position === 'core' ? 2 : 24) * msPerHour : null,
        caution:
          sight.silent && position === 'core' ? 'What the pile does meanwhile is not known: it may be heating.' : null,
        why:
          track.intervalMs === 0
            ? `Present when nothing is heard for ${allowed}; its rhythm is not known yet.`
            : `It usually speaks every ${duration(track.intervalMs)}; present when nothing is heard for ${allowed}, about three of those and at least half an hour.`,
        explainedBy: null,
      } satisfies Finding,
    ];
  });
}
