/**
 * web/practice/practice-alarms.ts: the alarms of a practice pile, stepped as the house steps those of a real one.
 *
 * Takes:  the findings of one look, or a person's acknowledgement.
 * Gives:  the open alarms as pages show them, and those that were raised by this look.
 * Never:  lets what another warning explains raise or clear anything.
 */
import { type AlarmMachine, acknowledgeAlarm, isOpen, startAlarm, stepAlarm } from '../../../core/alarm/alarm.ts';
import { delaysOf } from '../../../core/alarm/policies.ts';
import type { Finding } from '../../../core/judge/assessment.ts';
import type { AlarmSummary } from '../../../shared/api/piles.ts';
import { toInstant } from '../../../shared/api/time.ts';

interface Place {
  machine: AlarmMachine;
  /** As it was last seen present. */
  finding: Finding;
  explainedBy: Finding['explainedBy'];
  raisedAtMs: number;
}

export interface PracticeAlarms {
  /** @returns The alarms that ask for a person because of this look. */
  look(findings: readonly Finding[], nowMs: number): AlarmSummary[];
  acknowledge(id: string, nowMs: number): void;
  open(): AlarmSummary[];
}

const idOf = ({ kind, position }: Pick<Finding, 'kind' | 'position'>) => (position ? `${kind}-${position}` : kind);

export function createAlarms(): PracticeAlarms {
  const places = new Map<string, Place>();

  const heldBackBy = ({ explainedBy }: Place): string | null => {
    for (const [id, other] of places)
      if (other.finding.kind === explainedBy && isOpen(other.machine) && other.explainedBy === null) return id;
    return null;
  };
  const summary = (id: string, place: Place): AlarmSummary => {
    const { machine, finding } = place;
    return {
      id,
      kind: finding.kind,
      severity: machine.severity ?? finding.severity,
      state: machine.state,
      since: toInstant(place.raisedAtMs),
      position: finding.position,
      seen: finding.seen,
      todo: finding.todo,
      by: finding.byMs === null ? null : toInstant(finding.byMs),
      caution: finding.caution,
      heldBackBy: heldBackBy(place),
      shelvedUntil: null,
    };
  };

  function lookAt(finding: Finding, nowMs: number): string | undefined {
    const { evidence, severity, explainedBy } = finding;
    const id = idOf(finding);
    const place = places.get(id) ?? { machine: startAlarm(nowMs), finding, explainedBy, raisedAtMs: nowMs };
    places.set(id, place);
    const before = place.machine;
    place.explainedBy = explainedBy;
    if (evidence === 'present') place.finding = finding;
    place.machine = stepAlarm(before, explainedBy ? 'missing' : evidence, nowMs, delaysOf(finding), severity).next;
    if (!isOpen(before)) place.raisedAtMs = nowMs;
    const asks = place.machine.state === 'unacknowledged' && before.state !== 'unacknowledged';
    return asks ? id : undefined;
  }

  return {
    look(findings, nowMs) {
      const raised = findings.flatMap((finding) => lookAt(finding, nowMs) ?? []);
      return raised.flatMap((id) => {
        const place = places.get(id);
        return place ? [summary(id, place)] : [];
      });
    },
    acknowledge(id, nowMs) {
      const place = places.get(id);
      if (place) place.machine = acknowledgeAlarm(place.machine, nowMs).next;
    },
    open: () => [...places].flatMap(([id, place]) => (isOpen(place.machine) ? [summary(id, place)] : [])),
  };
}
