import { cautions } from '../../../../core/profiles/cautions.ts';
import { type ConditionKind, conditionKinds } from '../../../../shared/conditions/kinds.ts';
import { message } from '../../../../shared/messages/message.ts';
import { Part } from '../../ui/parts/part.tsx';
import { useHelp, useSayHelp } from './help-texts.tsx';
import { Caution, SaidCaution, Section } from './section.tsx';
import { warningEntries } from './warning-todos.ts';
import './help.css';

export function Warnings() {
  const { text } = useHelp();
  const say = useSayHelp();
  return (
    <>
      <Section
        of="warnings.heat"
        first={
          <>
            <Caution>{text('page-help.warnings.heat.open')}</Caution>
            <Caution>{text('page-help.warnings.heat.hand')}</Caution>
            <SaidCaution of={cautions.spores} />
          </>
        }
      />
      <Part id="kinds" title={text('page-help.warnings.kinds')}>
        <ol class="help-kinds">
          {conditionKinds.map((kind) => (
            <li key={kind}>
              <a href={`#${kind}`}>{say(message(`condition.${kind}.name`))}</a>
            </li>
          ))}
        </ol>
      </Part>
      {conditionKinds.map((kind) => (
        <Kind key={kind} kind={kind} />
      ))}
    </>
  );
}

function Kind({ kind }: { readonly kind: ConditionKind }) {
  const { text, rich } = useHelp();
  const say = useSayHelp();
  const { todos, cautions: own, isTurned } = warningEntries[kind];
  return (
    <Part id={kind} title={say(message(`condition.${kind}.name`))}>
      {own.map((caution) => (
        <SaidCaution key={say(caution)} of={caution} />
      ))}
      {isTurned && <Caution>{rich('page-help.warnings.mask')}</Caution>}
      <dl class="help-answers">
        <dt>{text('page-help.warnings.what')}</dt>
        <dd>{say(message(`meaning.${kind}`))}</dd>
        <dt>{text('page-help.warnings.why')}</dt>
        <dd>{rich(`page-help.warnings.${kind}.why`)}</dd>
        <dt>{text('page-help.warnings.do')}</dt>
        {todos.map((todo) => (
          <dd key={say(todo.says)}>
            {todo.fromC !== undefined && (
              <b>{text('page-help.warnings.from', { fromC: { valueC: todo.fromC, decimals: 0 } })} </b>
            )}
            {say(todo.says)}
          </dd>
        ))}
        <dt>{text('page-help.warnings.not')}</dt>
        <dd>{rich(`page-help.warnings.${kind}.not`)}</dd>
      </dl>
    </Part>
  );
}
