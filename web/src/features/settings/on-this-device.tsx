/** Whether these pages open out of reach of the server, and how to put them beside other apps. */

import { installed } from '../../data/live/installed.ts';
import { useStore } from '../../data/store.ts';
import './settings.css';
import { useSettingWords } from './use-setting-words.ts';

export function OnThisDevice() {
  const { text } = useSettingWords();
  const { opensOffline, install } = useStore(installed, (value) => value);
  return (
    <section class="system-facts" aria-labelledby="on-this-device">
      <h2 id="on-this-device">{text('page-settings.device')}</h2>
      <p>{text(`page-settings.offline.${opensOffline}`)}</p>
      {install ? (
        <p>
          <button type="button" onClick={() => void install()}>
            {text('page-settings.install')}
          </button>
        </p>
      ) : (
        opensOffline === 'yes' && <p class="hint">{text('page-settings.install.hint')}</p>
      )}
    </section>
  );
}
