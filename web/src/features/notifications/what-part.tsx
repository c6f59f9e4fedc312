/** Of what a person wants to hear. */
import type { Preferences } from '../../../../shared/notifications.ts';
import { warningKinds } from '../../../../shared/warning.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { warningNames } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { severityChoices } from './sent-words.ts';
import './notifications.css';

interface WhatPartProps {
  readonly draft: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly isOwner: boolean;
}

export function WhatPart({ draft, change, isOwner }: WhatPartProps) {
  const sites = useInstallation((installation) => installation.sites);
  const { withoutKinds, sites: chosen } = draft;
  const choosable = warningKinds.filter((kind) => kind !== 'self-heating');
  return (
    <Part id="what" title="Of what">
      <p class="caution">
        The self-heating hazard always notifies, at any hour, whatever is chosen here: people may be hurt.
      </p>
      <PickField
        label="How bad it must be"
        value={draft.fromSeverity}
        choices={severityChoices}
        onValue={(fromSeverity) => change({ fromSeverity })}
      />
      <fieldset class="ticks">
        <legend>Kinds</legend>
        {choosable.map((kind) => (
          <Tick
            key={kind}
            label={warningNames[kind]}
            checked={!withoutKinds.includes(kind)}
            onChange={(on) =>
              change({ withoutKinds: on ? withoutKinds.filter((one) => one !== kind) : [...withoutKinds, kind] })
            }
          />
        ))}
      </fieldset>
      {sites.length > 1 && (
        <fieldset class="ticks">
          <legend>Sites</legend>
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
        label="Tell me when it is over"
        checked={draft.notifyCleared}
        onChange={(notifyCleared) => change({ notifyCleared })}
      />
      <Tick
        label="Notify me of trouble with the server itself: disk, broker, delivery"
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
