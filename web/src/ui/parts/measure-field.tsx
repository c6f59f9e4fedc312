/** A field for an amount in the person's own unit; and the choice of those units. */
import { useEffect, useRef } from 'preact/hooks';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import type { MeasureKind } from '../../../../shared/measure.ts';
import { pageUnitsTexts } from '../../../../shared/messages/made/en/page-units.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { changeUnits, restated, unitOf, usePlanUnits } from '../../data/plan-units.ts';
import { changePrefs } from '../../data/prefs.ts';
import { Choice, TextField } from './forms.tsx';
import './measure-field.css';

interface MeasureFieldProps {
  readonly label: string;
  readonly kind: MeasureKind;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly hint?: string | undefined;
  /** Shown once something stands in the field, or when `eager`. */
  readonly error?: string | undefined;
  readonly eager?: boolean;
  readonly unitNote?: string;
  readonly required?: boolean;
}

export function MeasureField({ kind, error, eager, unitNote, value, required, ...rest }: MeasureFieldProps) {
  const units = usePlanUnits();
  return (
    <TextField
      {...rest}
      value={value}
      inputMode="decimal"
      {...(required ? { required } : {})}
      unit={unitNote ? `${unitOf(kind, units)}, ${unitNote}` : unitOf(kind, units)}
      error={eager || value.trim() !== '' ? error : undefined}
    />
  );
}

/** A figure as it was typed, said in the units of now. */
export type Turn = (kind: MeasureKind, text: string) => string;

/** Restates a draft's amounts when the person chooses other units; `fields` says what each of them measures. */
export function useRestated<Draft>(
  draft: Draft,
  setDraft: (draft: Draft) => void,
  restate: (draft: Draft, turn: Turn) => Draft,
): PlanUnits {
  const units = usePlanUnits();
  const before = useRef(units);
  useEffect(() => {
    const last = before.current;
    before.current = units;
    if (JSON.stringify(last) === JSON.stringify(units)) return;
    setDraft(restate(draft, (kind, text) => restated(kind, text, last, units)));
  }, [units.mass, units.volume, units.length, units.temperature]);
  return units;
}

export function UnitChoices() {
  const units = usePlanUnits();
  const { text } = usePageTexts(pageUnitsTexts);
  return (
    <details class="more unit-choices">
      <summary>{text('page-units.says', { ...units, temperatureText: `°${units.temperature}` })}</summary>
      <div class="unit-rows">
        <MeasureUnits />
        <Choice
          legend={text('page-units.temperature')}
          value={units.temperature}
          choices={[
            ['C', '°C'],
            ['F', '°F'],
          ]}
          onValue={(unit) => changePrefs({ unit })}
        />
      </div>
    </details>
  );
}

/** For mass, volume and length; the temperature is a preference of its own. */
export function MeasureUnits() {
  const units = usePlanUnits();
  const { text } = usePageTexts(pageUnitsTexts);
  return (
    <>
      <Choice
        legend={text('page-units.mass')}
        value={units.mass}
        choices={[
          ['kg', 'kg'],
          ['lb', 'lb'],
        ]}
        onValue={(mass) => changeUnits({ mass })}
      />
      <Choice
        legend={text('page-units.volume')}
        value={units.volume}
        choices={[
          ['L', 'L'],
          ['gal', 'US gal'],
        ]}
        onValue={(volume) => changeUnits({ volume })}
      />
      <Choice
        legend={text('page-units.length')}
        value={units.length}
        choices={[
          ['m', 'm, cm'],
          ['ft', 'ft, in'],
        ]}
        onValue={(length) => changeUnits({ length })}
      />
    </>
  );
}
