/** Water for one material, the first portion before the squeeze test, and the air that is left. */
import { useState } from 'preact/hooks';
import { ingredientFacts } from '../../../../core/plan/plan-facts.ts';
import type { WaterPlan as Watering } from '../../../../core/plan/water.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { measureText } from '../../../../shared/measure.ts';
import { ingredients, materialNames } from '../../../../shared/profiles/material-names.ts';
import { typed } from '../../data/plan-units.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { MeasureField, useRestated } from '../../ui/parts/measure-field.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { emptyWater, heapMaterial, layAddress, planWetting, type WaterDraft } from './plan-asks.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import './plan.css';

export const ingredientNames = ingredients.map((one) => [one, capital(materialNames[one])] as const);

/** What stands in a field until the person knows better, said as its hint. */
export function unlessKnown(value: number | undefined, units: PlanUnits): string {
  return value === undefined ? 'Needed: nothing is known of it.' : `Leave empty for ${typed('share', value, units)} %.`;
}

export function WaterPlan() {
  const [draft, setDraft] = useState<WaterDraft>(emptyWater);
  const units = useRestated(draft, setDraft, (was, turn) => ({
    ...was,
    mass: turn('massKg', was.mass),
    starter: turn('volumeL', was.starter),
    meant: turn('volumeL', was.meant),
    weight: turn('densityKgM3', was.weight),
  }));
  const change = (part: Partial<WaterDraft>) => setDraft({ ...draft, ...part });
  const planned = planWetting(draft, units);
  return (
    <div class="plan-two">
      <WaterFields draft={draft} change={change} wrong={(pointer) => planned.errors.get(pointer)} units={units} />
      <PlanResult planned={planned} waitsFor="Say how much of the material you have.">
        {(answer) => (
          <>
            <WaterFigures answer={answer} units={units} />
            <LayOnwards answer={answer} draft={draft} />
          </>
        )}
      </PlanResult>
    </div>
  );
}

interface WaterFieldsProps {
  readonly draft: WaterDraft;
  readonly change: (part: Partial<WaterDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
  readonly units: PlanUnits;
}

function WaterFields({ draft, change, wrong, units }: WaterFieldsProps) {
  const facts = ingredientFacts(draft.material);
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <div class="field-row">
        <PickField
          label="Material"
          value={draft.material}
          choices={ingredientNames}
          onValue={(material) => change({ material })}
        />
        <MeasureField
          label="How much of it"
          kind="massKg"
          value={draft.mass}
          onValue={(mass) => change({ mass })}
          error={wrong('/materialKg')}
        />
      </div>
      <div class="field-row">
        <MeasureField
          label="Moisture now"
          unitNote="wet basis"
          kind="share"
          value={draft.moistureNow}
          onValue={(moistureNow) => change({ moistureNow })}
          hint={unlessKnown(facts.stored?.moistureFrac.value, units)}
          error={wrong('/moistureNow')}
        />
        <MeasureField
          label="Moisture wanted"
          unitNote="wet basis"
          kind="share"
          value={draft.moistureTarget}
          onValue={(moistureTarget) => change({ moistureTarget })}
          hint={unlessKnown(facts.targetFrac?.value, units)}
          error={wrong('/moistureTarget')}
        />
      </div>
      <MeasureField
        label="Diluted starter that goes in"
        kind="volumeL"
        value={draft.starter}
        onValue={(starter) => change({ starter })}
        hint="It is counted as water."
        error={wrong('/starterL')}
      />
      <details class="more">
        <summary>Water you mean to give, and what the material weighs</summary>
        <MeasureField
          label="Water you mean to give"
          kind="volumeL"
          value={draft.meant}
          onValue={(meant) => change({ meant })}
          hint="To see what it would come to."
          error={wrong('/waterMeantL')}
        />
        <MeasureField
          label="Weight of the loose material"
          kind="densityKgM3"
          value={draft.weight}
          onValue={(weight) => change({ weight })}
          hint="Fill a bucket without pressing and weigh it: its weight divided by its volume. It tells how much air stays."
          error={wrong('/bulkDensityKgM3')}
        />
      </details>
    </form>
  );
}

function LayOnwards({ answer, draft }: { readonly answer: Watering; readonly draft: WaterDraft }) {
  return (
    <May to="keeper">
      <p class="plan-on">
        <a
          class="button"
          href={layAddress({
            stage: ingredientFacts(draft.material).family === 'soil' ? 'soil' : 'bran',
            material: heapMaterial([{ material: draft.material, massKg: 1 }]),
            massKg: answer.massAfterKg,
            moistureFrac: answer.moistureAfter,
          })}
        >
          Lay a pile with these figures
        </a>
      </p>
    </May>
  );
}

function WaterFigures({ answer, units }: { readonly answer: Watering; readonly units: PlanUnits }) {
  const litres = (kg: number) => measureText('volumeL', kg, units, 3);
  const portions =
    answer.verdict === 'add'
      ? ([
          ['First portion, before the squeeze test', litres(answer.firstPortionKg)],
          ['The rest, by the squeeze test', litres(answer.restKg)],
        ] as const)
      : [];
  return (
    <>
      <Figures
        rows={[
          ...portions,
          ['Moisture then', measureText('share', answer.moistureAfter, units, 3), 'wet basis'],
          ['Mass then', measureText('massKg', answer.massAfterKg, units)],
          ...(answer.freeAirSpace === null
            ? []
            : [
                [
                  'Free air space then',
                  measureText('share', answer.freeAirSpace, units, 3),
                  `should keep ${measureText('share', answer.freeAirSpaceFloor, units)}`,
                ] as const,
              ]),
        ]}
      />
      {answer.verdict === 'add' && (
        <p class="next">
          Water cannot be taken out again: give the first portion, mix, wait a quarter of an hour, squeeze a handful
          hard, then go on.
        </p>
      )}
    </>
  );
}
