/** What is published of the piles by MQTT, for all who may listen at the broker. */
import { type HubChoice, type Publishing, publishingAnswerSchema } from '../../../../shared/contracts/published.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Choice, Refusal } from '../../ui/parts/forms.tsx';
import './settings.css';
import { useSettingWords } from './use-setting-words.ts';

const path = '/api/publishing';
const getPublishing = () => ask(publishingAnswerSchema, path);

export function PublishedPiles() {
  const { text, rich } = useSettingWords();
  const { value, error, refresh } = useQuery('publishing', getPublishing);
  const mutation = useMutation();
  if (!value) return error === undefined ? null : <p class="refusal">{reasonOf(error)}</p>;
  const { topics, ...chosen } = value;
  const choose = (change: Partial<Publishing>) =>
    void mutation.run(async () => {
      await ask(publishingAnswerSchema, path, { method: 'PUT', body: { ...chosen, ...change } });
      await refresh();
    });
  const offOrOn = [
    ['off', text('page-settings.published.off')],
    ['on', text('page-settings.published.on')],
  ] as const;
  const ofHub = [
    ['off', text('page-settings.published.hub.off')],
    ['looks-on', text('page-settings.published.hub.looks-on')],
    ['acknowledges', text('page-settings.published.hub.acknowledges')],
  ] as const satisfies readonly (readonly [HubChoice, string])[];
  const hub = chosen.states ? (chosen.hub ?? 'off') : 'off';
  const mono = (inner: preact.ComponentChildren) => <code>{inner}</code>;
  return (
    <section class="system-facts" aria-labelledby="published-piles">
      <h2 id="published-piles">{text('page-settings.published')}</h2>
      <p class="hint">{text('page-settings.published.lead')}</p>
      <div class="settings">
        <Choice
          legend={text('page-settings.published.states')}
          value={chosen.states ? 'on' : 'off'}
          choices={offOrOn}
          onValue={(states) => choose(states === 'on' ? { states: true } : { states: false, hub: 'off' })}
        />
        <p class="hint">
          {rich('page-settings.published.states.hint', { statesText: topics.states, eventsText: topics.events, mono })}
        </p>
        <Choice
          legend={text('page-settings.published.hub')}
          value={hub}
          choices={ofHub}
          onValue={(wanted) => choose(wanted === 'off' ? { hub: wanted } : { hub: wanted, states: true })}
        />
        <p class="hint">{rich('page-settings.published.hub.hint', { hubText: topics.hub, mono })}</p>
      </div>
      <Refusal error={mutation.error} />
    </section>
  );
}
