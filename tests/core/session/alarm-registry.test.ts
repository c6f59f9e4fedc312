// "By 8:54 pm" became 10:10, then 11:01, and 22 days later "in 6 h": the deadline ran before whoever it was for.
import { describe, expect, test } from 'vitest';
import { alarmSummary } from '../../../core/say/alarm-view.ts';
import { AlarmRegistry } from '../../../core/session/alarm-registry.ts';
import type { Finding } from '../../../core/warnings/finding.ts';
import { alarmMachineSchema } from '../../../shared/alarm-record.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import type { AlarmRecord } from '../../../shared/store/journal.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const startMs = Date.UTC(2031, 4, 1, 18);

/** As a detector makes it at each look: two hours from now, or at once. */
function hot(nowMs: number, change: Partial<Finding> = {}): Finding {
  return {
    kind: 'overheating',
    position: null,
    evidence: 'present',
    severity: 'warning',
    seen: verbatim('The core is at 52 °C.'),
    todo: verbatim('Turn it or spread it thinner.'),
    byMs: nowMs + 2 * hourMs,
    caution: null,
    why: verbatim('A rule.'),
    explainedBy: null,
    nearness: 'clear',
    ...change,
  };
}

class Journal {
  readonly alarms = new Map<string, AlarmRecord>();
  writes = 0;
  registry = new AlarmRegistry('shed', [], () => 'a1');

  evaluate(items: readonly Finding[], nowMs: number): void {
    const { alarms } = this.registry.evaluate(items, nowMs);
    this.writes += alarms.length;
    for (const alarm of alarms) this.alarms.set(alarm.id, alarm);
  }

  restart(): void {
    this.registry = new AlarmRegistry(
      'shed',
      [...this.alarms.values()].filter(({ closedAtMs }) => closedAtMs === null),
      () => 'a2',
    );
  }

  byMs(): number | null {
    const [open] = [...this.registry.open()];
    if (!open) throw new Error('no alarm is open');
    return open.record.words.byMs;
  }

  keptByMs(): number | null {
    const kept = this.alarms.get('a1');
    if (!kept) throw new Error('nothing was kept');
    return kept.words.byMs;
  }
}

describe('a deadline', () => {
  test('stays where it was set, look after look, and becomes overdue', () => {
    const journal = new Journal();
    for (let min = 0; min <= 22 * 24 * 60; min += 7)
      journal.evaluate([hot(startMs + min * minuteMs)], startMs + min * minuteMs);
    expect(journal.byMs()).toBe(startMs + 2 * hourMs);
    expect(journal.writes).toBe(1);
  });

  test('outlasts a restart', () => {
    const journal = new Journal();
    journal.evaluate([hot(startMs)], startMs);
    journal.restart();
    journal.evaluate([hot(startMs + 90 * minuteMs)], startMs + 90 * minuteMs);
    expect(journal.byMs()).toBe(startMs + 2 * hourMs);
  });

  test('is brought forward when it grows graver, and never put off', () => {
    const journal = new Journal();
    journal.evaluate([hot(startMs)], startMs);
    const worseMs = startMs + 30 * minuteMs;
    journal.evaluate([hot(worseMs, { severity: 'urgent', byMs: worseMs })], worseMs);
    expect(journal.byMs()).toBe(worseMs);
    journal.evaluate([hot(worseMs + hourMs, { byMs: worseMs + 5 * hourMs })], worseMs + hourMs);
    expect(journal.byMs()).toBe(worseMs);
    expect(journal.keptByMs()).toBe(worseMs);
  });

  test('foretold for sooner is kept over a restart though no step was taken', () => {
    const journal = new Journal();
    journal.evaluate([hot(startMs)], startMs);
    journal.evaluate([hot(startMs + minuteMs, { byMs: startMs + hourMs })], startMs + minuteMs);
    journal.restart();
    expect(journal.byMs()).toBe(startMs + hourMs);
  });

  test('is set anew for an alarm that comes back after it was over', () => {
    const journal = new Journal();
    journal.evaluate([hot(startMs)], startMs);
    for (let min = 10; min <= 120; min += 10)
      journal.evaluate([hot(startMs + min * minuteMs, { evidence: 'absent', byMs: null })], startMs + min * minuteMs);
    journal.evaluate([hot(startMs + 24 * hourMs)], startMs + 24 * hourMs);
    expect(journal.byMs()).toBe(startMs + 26 * hourMs);
  });
});

describe('a rung of the hazard ladder', () => {
  const hazard = (nowMs: number, rung: number, todo: string) =>
    hot(nowMs, { kind: 'self-heating', severity: 'danger', rung, todo: verbatim(todo), byMs: nowMs });

  test('that is reached is a step of its own, told and kept, though the severity stays', () => {
    const journal = new Journal();
    journal.evaluate([hazard(startMs, 2, 'Open it only with a helper.')], startMs);
    const { steps, alarms } = journal.registry.evaluate(
      [hazard(startMs + hourMs, 3, 'Keep air out of it.')],
      startMs + hourMs,
    );
    expect(steps.map(({ from, to, arrow }) => [from, to, arrow])).toEqual([
      ['unacknowledged', 'unacknowledged', 'got-worse'],
    ]);
    expect(alarms.map(({ words }) => words.todo)).toEqual([verbatim('Keep air out of it.')]);
    expect(alarms.map(({ machine }) => alarmMachineSchema.parse(JSON.parse(JSON.stringify(machine))).rung)).toEqual([
      3,
    ]);
  });
});

describe('a warning that a probe would explain', () => {
  const lost = (kind: Finding['kind']) =>
    hot(startMs + hourMs, { kind, evidence: 'missing', explainedBy: 'probe-silent' });
  const silent = hot(startMs + hourMs, { kind: 'probe-silent', position: 'core' });
  for (const [kind, held] of [
    ['self-heating', false],
    ['overheating', false],
    ['drying', true],
  ] as const) {
    test(`${kind} that stands when the core falls silent is ${held ? '' : 'not '}suppressed by that`, () => {
      const registry = new AlarmRegistry(
        'shed',
        [],
        (() => {
          let last = 0;
          return () => String(++last);
        })(),
      );
      // Drying waits an hour before it is raised.
      registry.evaluate([hot(startMs - 2 * hourMs, { kind })], startMs - 2 * hourMs);
      registry.evaluate([hot(startMs, { kind })], startMs);
      registry.evaluate([lost(kind), silent], startMs + hourMs);
      const open = [...registry.open()];
      const records = open.map(({ record }) => record);
      const shown = open.map((one) => alarmSummary(one, records)).find((one) => one.kind === kind);
      expect([shown?.stands, shown?.suppressedBy !== null]).toEqual([true, held]);
    });
  }
});
