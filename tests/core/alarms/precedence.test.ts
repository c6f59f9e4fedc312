import { describe, expect, test } from 'vitest';
import { graverOf, gravityOf, suppressorOf } from '../../../core/alarms/precedence.ts';
import { conditionOf } from '../../../shared/conditions/kinds.ts';
import type { Position } from '../../../shared/names.ts';
import { type Evidence, type WarningKind, warningKinds } from '../../../shared/warning.ts';

describe('yieldsTo', () => {
  for (const kind of warningKinds) {
    test(`${kind} yields to graver kinds alone, never to itself`, () => {
      for (const graver of conditionOf(kind).yieldsTo)
        expect(warningKinds.indexOf(graver)).toBeLessThan(warningKinds.indexOf(kind));
    });
  }
  test('every kind but itself yields to the self-heating hazard', () => {
    expect(warningKinds.filter((kind) => !conditionOf(kind).yieldsTo.includes('self-heating'))).toEqual([
      'self-heating',
    ]);
  });
});

describe('gravityOf()', () => {
  const rows: [string, [WarningKind, Position | null], [WarningKind, Position | null]][] = [
    // name                                            graver                   less grave
    ['fire before heat', ['self-heating', null], ['overheating', null]],
    ['heat before a silent core', ['overheating', null], ['probe-silent', 'core']],
    ['a silent core before drying', ['probe-silent', 'core'], ['drying', null]],
    ['the least of the pile before a silent top', ['uneven', null], ['probe-silent', 'top']],
    ['a silent edge before a stuck one', ['probe-silent', 'edge'], ['probe-stuck', 'edge']],
  ];
  for (const [name, [kind, position], [lesser, elsewhere]] of rows) {
    test(name, () =>
      expect(gravityOf({ kind, position })).toBeLessThan(gravityOf({ kind: lesser, position: elsewhere })),
    );
  }
});

describe('graverOf()', () => {
  const alarm = (kind: WarningKind, stands = true) => ({ kind, position: null, stands });
  test('of two that it yields to the graver', () =>
    expect(graverOf(alarm('chilled'), [alarm('overheating-soon'), alarm('self-heating')])?.kind).toBe('self-heating'));
  test('where that one yields to a third, the third', () =>
    expect(graverOf(alarm('hand-wet'), [alarm('wrong-growth'), alarm('overheating')])?.kind).toBe('overheating'));
  test('none that no longer stands', () =>
    expect(graverOf(alarm('chilled'), [alarm('self-heating', false)])).toBeUndefined());
  test('none of those it does not yield to', () =>
    expect(graverOf(alarm('uneven'), [alarm('drying'), alarm('overheating')])).toBeUndefined());
});

describe('suppressorOf()', () => {
  const rows: [WarningKind, Evidence, WarningKind | null, WarningKind | null][] = [
    // kind          evidence    explained by    suppressed by
    ['waterlogged', 'present', 'chilled', 'chilled'],
    ['uneven', 'present', 'probe-out', 'probe-out'],
    ['drying', 'missing', 'probe-silent', 'probe-silent'],
    ['overheating-soon', 'missing', 'probe-stuck', 'probe-stuck'],
    ['overheating', 'missing', 'probe-silent', null],
    ['self-heating', 'missing', 'probe-silent', null],
    ['self-heating', 'missing', 'probe-out', null],
    ['drying', 'absent', null, null],
  ];
  for (const [kind, evidence, explainedBy, holder] of rows) {
    test(`${kind}, ${evidence}, explained by ${explainedBy}: suppressed by ${holder}`, () =>
      expect(suppressorOf({ kind, evidence, explainedBy })).toBe(holder));
  }
});
