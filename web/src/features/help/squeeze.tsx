import type { ComponentChildren } from 'preact';
import { cautions } from '../../../../core/profiles/cautions.ts';
import { squeezeFeels } from '../../../../shared/entry.ts';
import { message } from '../../../../shared/messages/message.ts';
import { type Stage, stages } from '../../../../shared/names.ts';
import { squeezeHow, squeezeResult, squeezeTodo } from '../../../../shared/squeeze.ts';
import { GrowthDrawing, SqueezeDrawing } from './hand-drawings.tsx';
import { useHelp, useSayHelp } from './help-texts.tsx';
import { SaidCaution, Section } from './section.tsx';
import './help.css';

export function Squeeze() {
  return (
    <>
      <Section of="squeeze.squeeze" first={<Handful />}>
        {stages.map((stage) => (
          <SqueezeScale key={stage} stage={stage} />
        ))}
      </Section>
      <Section of="squeeze.weigh" />
      <Section of="squeeze.smell" first={<SaidCaution of={cautions.smelling} />} />
      <Section of="squeeze.look" first={<SaidCaution of={cautions.colouredMould} />}>
        <div class="help-pair">
          <GoodLook />
          <BadLook />
        </div>
      </Section>
    </>
  );
}

function Handful() {
  const say = useSayHelp();
  return (
    <>
      <SaidCaution of={cautions.hotHandful} />
      <p>{say(squeezeHow)}</p>
    </>
  );
}

function SqueezeScale({ stage }: { readonly stage: Stage }) {
  const { text } = useHelp();
  const say = useSayHelp();
  return (
    <section aria-labelledby={`squeeze-${stage}`}>
      <h3 class="sub-head" id={`squeeze-${stage}`}>
        {text(`page-help.stage.${stage}`)}
      </h3>
      <ul class="help-cards help-cards-small">
        {squeezeFeels.map((feel) => (
          <li key={feel}>
            <div class="help-small-drawing">
              <SqueezeDrawing feel={feel} words={text(`page-help.squeeze.draw.${feel}`)} />
            </div>
            <p>
              <b>{say(squeezeResult(feel, stage))}.</b>
            </p>
            <p>{say(squeezeTodo(feel))}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface LookProps {
  readonly growth: 'threads' | 'patches';
  readonly look: 'good' | 'bad';
  readonly children: ComponentChildren;
}

/** How it looks inside, and what may be seen and smelt there. */
function Look({ growth, look, children }: LookProps) {
  const { text } = useHelp();
  return (
    <div>
      <GrowthDrawing growth={growth} words={text(`page-help.squeeze.draw.${growth}`)} />
      <h3 class="help-card-title">{text(`page-help.squeeze.look.${look}`)}</h3>
      <ul class="help-list">{children}</ul>
    </div>
  );
}

function GoodLook() {
  const { text } = useHelp();
  const say = useSayHelp();
  return (
    <Look growth="threads" look="good">
      {stages.map((stage) => (
        <li key={stage}>
          <b>{text(`page-help.stage.${stage}`)}.</b> {say(message(`readiness.good.${stage}.look`))}{' '}
          {say(message(`readiness.good.${stage}.smell`))}
        </li>
      ))}
    </Look>
  );
}

function BadLook() {
  const say = useSayHelp();
  return (
    <Look growth="patches" look="bad">
      {(['colours', 'smell', 'wet', 'pests'] as const).map((sign) => (
        <li key={sign}>{say(message(`readiness.bad.${sign}`))}</li>
      ))}
    </Look>
  );
}
