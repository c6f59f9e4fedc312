/**
 * The alarms of a practice pile, stepped as the server steps those of a real one. It never lets what another warning
 * explains raise or clear anything.
 */
import { type AlarmMachine, acknowledgeAlarm, isOpen, startAlarm, stepAlarm } from '../../../../core/alarms/alarm.ts';
import { keptDeadline } from '../../../../core/alarms/deadline.ts';
import { delaysOf } from '../../../../core/alarms/policies.ts';
import { holderOf } from '../../../../core/alarms/precedence.ts';
import { isEasing, isStanding } from '../../../../core/alarms/standing.ts';
import { type AdvisedAlarm, adviceOf } from '../../../../core/say/advice.ts';
import { type Finding, gradeOf } from '../../../../core/warnings/finding.ts';
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { plainEnglish } from '../../../../shared/messages/render.ts';

interface Place {
  machine: AlarmMachine;
  /** As it was last seen present. */
  finding: Finding;
  heldBackBy: Finding['explainedBy'];
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

  const holderId = ({ heldBackBy }: Place): string | null => {
    for (const [id, other] of places)
      if (other.finding.kind === heldBackBy && isOpen(other.machine) && other.heldBackBy === null) return id;
    return null;
  };
  const advised = (id: string, { machine, finding }: Place): AdvisedAlarm & { readonly id: string } => {
    const { kind, position, byMs } = finding;
    const todo = plainEnglish(finding.todo);
    const caution = finding.caution && plainEnglish(finding.caution);
    return { id, kind, position, stands: isStanding(machine), eases: isEasing(machine), todo, byMs, caution };
  };
  const summary = (id: string, place: Place): AlarmSummary => {
    const { machine, finding } = place;
    const own = advised(id, place);
    const all = [...places].map(([otherId, other]) => advised(otherId, other));
    const { todo, byMs, caution, from } = adviceOf(own, all);
    return {
      id,
      kind: finding.kind,
      severity: machine.severity ?? finding.severity,
      state: machine.state,
      since: toInstant(place.raisedAtMs),
      position: finding.position,
      seen: plainEnglish(finding.seen),
      todo,
      by: byMs === null ? null : toInstant(byMs),
      caution,
      stands: own.stands,
      heldBackBy: holderId(place),
      yieldsTo: from?.id ?? null,
      ...(finding.noted && { noted: { at: toInstant(finding.noted.atMs), by: finding.noted.by } }),
      shelvedUntil: null,
    };
  };

  function lookAt(finding: Finding, nowMs: number): string | undefined {
    const { evidence, explainedBy } = finding;
    const id = idOf(finding);
    const place = places.get(id) ?? {
      machine: startAlarm(nowMs),
      finding,
      heldBackBy: null,
      raisedAtMs: nowMs,
    };
    places.set(id, place);
    const before = place.machine;
    place.heldBackBy = holderOf(finding);
    place.machine = stepAlarm(
      before,
      explainedBy ? 'missing' : evidence,
      nowMs,
      delaysOf(finding),
      gradeOf(finding),
    ).next;
    if (evidence === 'present') {
      const raisedAnew = !isStanding(before) && isStanding(place.machine);
      const keptMs = isOpen(before) ? place.finding.byMs : null;
      place.finding = { ...finding, byMs: keptDeadline(keptMs, finding.byMs, raisedAnew) };
    }
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
