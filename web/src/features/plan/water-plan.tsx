/** Water for one material, the first portion before the squeeze test, and the air that is left. */
import { ingredientFacts } from '../../../../core/plan/plan-facts.ts';
import type { WaterPlan as Watering } from '../../../../core/plan/water.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { figuresMeasured } from '../../../../shared/figures-measured.ts';
import { measureText } from '../../../../shared/measure.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { ingredients } from '../../../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { heapMaterial, layAddress, planWetting } from './plan-asks.ts';
import type { WaterDraft } from './plan-draft.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { type PlanWords, usePlanWords } from './use-plan-words.ts';
import './plan.css';

export const ingredientNames = (say: Say) =>
  ingredients.map((one) => [one, capital(say(materialProfiles[one].name))] as const);

/** What stands in a field until the person knows better, said as its hint. */
export function unlessKnown(shareFrac: number | undefined, { text }: PlanWords): string {
  return shareFrac === undefined
    ? text('page-plan.needed')
    : text('page-plan.unless-known', { sharePct: Number((100 * shareFrac).toPrecision(4)) });
}

interface WaterPlanProps {
  readonly draft: WaterDraft;
  readonly change: (part: Partial<WaterDraft>) => void;
  readonly units: PlanUnits;
}

export function WaterPlan({ draft, change, units }: WaterPlanProps) {
  const { text } = usePlanWords();
  const planned = planWetting(draft, units);
  return (
    <div class="plan-two">
      <WaterFields draft={draft} change={change} wrong={(pointer) => planned.errors.get(pointer)} />
      <PlanResult planned={planned} waitsFor={text('page-plan.water.waits')}>
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
}

function WaterFields({ draft, change, wrong }: WaterFieldsProps) {
  const words = usePlanWords();
  const { text } = words;
  const say = useSayPlan();
  const facts = ingredientFacts(draft.material);
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <div class="field-row">
        <PickField
          label={text('page-plan.water.material')}
          value={draft.material}
          choices={ingredientNames(say)}
          onValue={(material) => change({ material })}
        />
        <MeasureField
          label={text('page-plan.water.mass')}
          kind="massKg"
          value={draft.mass}
          onValue={(mass) => change({ mass })}
          error={wrong('/materialKg')}
        />
      </div>
      <div class="field-row">
        <MeasureField
          label={text('page-plan.water.moisture-now')}
          unitNote={text('page-plan.wet-basis')}
          kind="share"
          value={draft.moistureNow}
          onValue={(moistureNow) => change({ moistureNow })}
          hint={unlessKnown(facts.stored?.moistureFrac.value, words)}
          error={wrong('/moistureNow')}
        />
        <MeasureField
          label={text('page-plan.moisture-wanted')}
          unitNote={text('page-plan.wet-basis')}
          kind="share"
          value={draft.moistureTarget}
          onValue={(moistureTarget) => change({ moistureTarget })}
          hint={unlessKnown(facts.targetFrac?.value, words)}
          error={wrong('/moistureTarget')}
        />
      </div>
      <MeasureField
        label={text('page-plan.diluted-starter')}
        kind="volumeL"
        value={draft.starter}
        onValue={(starter) => change({ starter })}
        hint={text('page-plan.water.starter.hint')}
        error={wrong('/starterL')}
      />
      <details class="more">
        <summary>{text('page-plan.water.more')}</summary>
        <MeasureField
          label={text('page-plan.water.meant')}
          kind="volumeL"
          value={draft.meant}
          onValue={(meant) => change({ meant })}
          hint={text('page-plan.water.meant.hint')}
          error={wrong('/waterMeantL')}
        />
        <MeasureField
          label={text('page-plan.water.weight')}
          kind="densityKgM3"
          value={draft.weight}
          onValue={(weight) => change({ weight })}
          hint={text('page-plan.water.weight.hint')}
          error={wrong('/bulkDensityKgM3')}
        />
      </details>
    </form>
  );
}

function LayOnwards({ answer, draft }: { readonly answer: Watering; readonly draft: WaterDraft }) {
  const { text } = usePlanWords();
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
          {text('page-plan.lay-it')}
        </a>
      </p>
    </May>
  );
}

function WaterFigures({ answer, units }: { readonly answer: Watering; readonly units: PlanUnits }) {
  const { text } = usePlanWords();
  const litres = (kg: number) => measureText('volumeL', kg, units, figuresMeasured('volumeL', kg));
  const portions =
    answer.verdict === 'add'
      ? ([
          [text('page-plan.water.figure.first'), litres(answer.firstPortionKg)],
          [text('page-plan.water.figure.rest'), litres(answer.restKg)],
        ] as const)
      : [];
  return (
    <>
      <Figures
        rows={[
          ...portions,
          [
            text('page-plan.water.figure.moisture'),
            measureText('share', answer.moistureAfter, units, 3),
            text('page-plan.wet-basis'),
          ],
          [text('page-plan.water.figure.mass'), measureText('massKg', answer.massAfterKg, units, 3)],
          ...(answer.freeAirSpace === null
            ? []
            : [
                [
                  text('page-plan.water.figure.air'),
                  measureText('share', answer.freeAirSpace, units, 3),
                  text('page-plan.water.figure.air.floor', {
                    shareText: measureText('share', answer.freeAirSpaceFloor, units),
                  }),
                ] as const,
              ]),
        ]}
      />
      {answer.verdict === 'add' && <p class="next">{text('page-plan.water.next')}</p>}
    </>
  );
}
