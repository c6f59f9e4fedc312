/** Services that bring messages: added, filled in, tried and removed, each by itself. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { ServiceView } from '../../../../shared/contracts/notifications.ts';
import { type ServiceChannel, serviceChannels, serviceOf } from '../../../../shared/notification-services/services.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { removeService, saveService } from './notifications-api.ts';
import { textsOfService } from './service-texts.ts';
import { TestButton } from './test-button.tsx';
import { useNotificationWords } from './use-notification-words.ts';
import './notifications.css';

interface ServicesPartProps {
  readonly services: readonly ServiceView[];
  readonly refresh: () => Promise<void>;
}

export function ServicesPart({ services, refresh }: ServicesPartProps) {
  const { text } = useNotificationWords();
  const [added, setAdded] = useState<ServiceChannel>();
  const others = serviceChannels.filter((channel) => services.every((one) => one.channel !== channel));
  const isAdding = added !== undefined && others.includes(added);
  return (
    <Part id="services" title={text('page-notifications.services')}>
      {services.map((service) => (
        <Service key={service.channel} channel={service.channel} kept={service} refresh={refresh} />
      ))}
      {isAdding && <Service key={added} channel={added} refresh={refresh} close={() => setAdded(undefined)} />}
      {!isAdding && others.length > 0 && (
        <div class="buttons">
          {others.map((channel) => (
            <button key={channel} type="button" onClick={() => setAdded(channel)}>
              {text('page-notifications.services.add', { serviceName: serviceOf(channel).name })}
            </button>
          ))}
        </div>
      )}
    </Part>
  );
}

interface ServiceProps {
  readonly channel: ServiceChannel;
  readonly kept?: ServiceView;
  readonly refresh: () => Promise<void>;
  /** Of one that is being added: it is kept now, or not wanted. */
  readonly close?: () => void;
}

const aloud = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;

/** What stands in its fields before anything is changed; secrets that are kept are left empty. */
function shownValues(channel: ServiceChannel, kept: ServiceView | undefined): Record<string, string> {
  const { fields } = serviceOf(channel);
  const entries = Object.entries(fields).map(([key, { usual }]) => [key, kept ? kept.values[key] : usual] as const);
  return Object.fromEntries(entries.map(([key, value]) => [key, value ?? '']));
}

function Service({ channel, kept, refresh, close }: ServiceProps) {
  const { text, rich } = useNotificationWords();
  const { name: serviceName, fields } = serviceOf(channel);
  const texts = textsOfService(channel);
  const [values, setValues] = useState(() => shownValues(channel, kept));
  const [on, setOn] = useState(kept?.on ?? true);
  const mutation = useMutation();
  const save = (isOn: boolean) =>
    mutation.run(async () => {
      await saveService({ channel, on: isOn, values: valuesToSend(channel, values, kept) });
      setValues((before) => withoutSecrets(channel, before));
      await refresh();
      close?.();
    });
  const isFieldWrong = Object.keys(fields).some((key) => mutation.fieldError(`/values/${key}`) !== undefined);
  const switchOn = (isOn: boolean) => {
    setOn(isOn);
    if (kept) void save(isOn);
  };
  return (
    <fieldset
      class="service"
      // Enter in one of its fields saves this service, not the page around it.
      onKeyDown={(event) => {
        if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return;
        event.preventDefault();
        void save(on);
      }}
    >
      <legend>{serviceName}</legend>
      <p class="hint">{text(texts.hint)}</p>
      <Tick label={text('page-notifications.service.on', { serviceName })} checked={on} onChange={switchOn} />
      {Object.entries(fields).map(([key, { isSecret }]) => (
        <TextField
          key={key}
          label={text(texts.fields[key] ?? texts.hint)}
          value={values[key] ?? ''}
          mono
          type={isSecret ? 'password' : 'text'}
          hint={kept?.secrets.includes(key) ? text('page-notifications.service.kept') : undefined}
          error={mutation.fieldError(`/values/${key}`)}
          onValue={(value) => setValues((before) => ({ ...before, [key]: value }))}
        />
      ))}
      <div class="buttons">
        <button type="button" disabled={mutation.busy} onClick={() => void save(on)}>
          {rich('page-notifications.service.save', { serviceName, aloud })}
        </button>
        {kept ? (
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() => mutation.run(() => removeService(channel).then(refresh))}
          >
            {rich('page-notifications.service.remove', { serviceName, aloud })}
          </button>
        ) : (
          <button type="button" onClick={close}>
            {text('page-notifications.service.cancel')}
          </button>
        )}
      </div>
      {/* What is wrong with a field stands beside it. */}
      <Refusal error={isFieldWrong ? undefined : mutation.error} />
      {kept && <TestButton channel={channel} label={rich('page-notifications.service.test', { serviceName, aloud })} />}
    </fieldset>
  );
}

/** A secret that was left empty stays as it is kept. */
function valuesToSend(channel: ServiceChannel, values: Record<string, string>, kept: ServiceView | undefined) {
  const { fields } = serviceOf(channel);
  const sent = Object.entries(values).filter(([key, value]) => {
    const isKept = kept?.secrets.includes(key) ?? false;
    return value.trim() !== '' || (fields[key]?.isOptional === true && !isKept);
  });
  return Object.fromEntries(sent);
}

function withoutSecrets(channel: ServiceChannel, values: Record<string, string>): Record<string, string> {
  const { fields } = serviceOf(channel);
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [key, fields[key]?.isSecret ? '' : value]));
}
