/** Of what a person wants to hear. */
import type { Preferences } from '../../../../shared/notifications.ts';
import { warningKinds } from '../../../../shared/warning.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { warningWords } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import './notifications.css';
import { useNotificationWords } from './use-notification-words.ts';

const severities = ['notice', 'warning', 'urgent', 'danger'] as const;

interface WhatPartProps {
  readonly draft: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly isOwner: boolean;
}

export function WhatPart({ draft, change, isOwner }: WhatPartProps) {
  const { text } = useNotificationWords();
  const sites = useInstallation((installation) => installation.sites);
  const { withoutKinds, sites: chosen } = draft;
  const choosable = warningKinds.filter((kind) => kind !== 'self-heating');
  return (
    <Part id="what" title={text('page-notifications.what')}>
      <p class="caution">{text('page-notifications.what.always')}</p>
      <PickField
        label={text('page-notifications.severity')}
        value={draft.fromSeverity}
        choices={severities.map((one) => [one, text(`page-notifications.severity.${one}`)] as const)}
        onValue={(fromSeverity) => change({ fromSeverity })}
      />
      <fieldset class="ticks">
        <legend>{text('page-notifications.kinds')}</legend>
        {choosable.map((kind) => (
          <Tick
            key={kind}
            label={warningWords(kind)}
            checked={!withoutKinds.includes(kind)}
            onChange={(on) =>
              change({ withoutKinds: on ? withoutKinds.filter((one) => one !== kind) : [...withoutKinds, kind] })
            }
          />
        ))}
      </fieldset>
      {sites.length > 1 && (
        <fieldset class="ticks">
          <legend>{text('page-notifications.sites')}</legend>
          {sites.map(({ id, name }) => (
            <Tick
              key={id}
              label={name}
              checked={chosen === null || chosen.includes(id)}
              onChange={(on) =>
                change({
                  sites: toggled(
                    chosen,
                    sites.map((site) => site.id),
                    id,
                    on,
                  ),
                })
              }
            />
          ))}
        </fieldset>
      )}
      <Tick
        label={text('page-notifications.cleared')}
        checked={draft.notifyCleared}
        onChange={(notifyCleared) => change({ notifyCleared })}
      />
      <Tick
        label={text('page-notifications.trouble')}
        checked={draft.installationTrouble ?? isOwner}
        onChange={(installationTrouble) => change({ installationTrouble })}
      />
    </Part>
  );
}

/** All of them is kept as "every site", so that a new one is included too. */
function toggled(chosen: readonly string[] | null, all: readonly string[], id: string, on: boolean): string[] | null {
  const before = chosen ?? all;
  const after = on ? [...before, id] : before.filter((one) => one !== id);
  return all.every((one) => after.includes(one)) ? null : after;
}
