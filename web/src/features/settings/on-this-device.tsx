/** Whether these pages open out of reach of the server, and how to put them beside other apps. */

import { type Installed, installed } from '../../data/live/installed.ts';
import { useStore } from '../../data/store.ts';
import './settings.css';

const says: Record<Installed['opensOffline'], string> = {
  yes: 'These pages open when the server is out of reach too, with what it last said and how old that is. Entries you write then are sent later.',
  'not-yet': 'These pages are being copied, so that they open when the server is out of reach too.',
  no: 'These pages open only while the server answers: a browser keeps them only from an address with https, or on the machine itself.',
};

export function OnThisDevice() {
  const { opensOffline, install } = useStore(installed, (value) => value);
  return (
    <section class="system-facts" aria-labelledby="on-this-device">
      <h2 id="on-this-device">On this device</h2>
      <p>{says[opensOffline]}</p>
      {install ? (
        <p>
          <button type="button" onClick={() => void install()}>
            Put Branhearth beside your other apps
          </button>
        </p>
      ) : (
        opensOffline === 'yes' && (
          <p class="hint">
            To have it beside your other apps, look for “Add to home screen” or “Install” in the browser’s menu.
          </p>
        )
      )}
    </section>
  );
}
