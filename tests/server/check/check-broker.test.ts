import { rm, writeFile } from 'node:fs/promises';
import { type AddressInfo, createServer } from 'node:net';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { checkBroker } from '../../../server/check/check-broker.ts';
import { readConfig } from '../../../shared/config.ts';
import { freePort } from '../../helpers/free-port.ts';
import { startSilentServer } from '../../helpers/mail-server.ts';
import { hasMosquitto, startMosquitto } from '../../helpers/mosquitto.ts';
import { scratchFolder } from '../../shared/store/scratch.ts';

const check = (environment: Record<string, string>) => {
  const given = Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]);
  return checkBroker(readConfig(Object.fromEntries(given)).config);
};

describe('check of the broker inside', () => {
  test('says that its port is free while no server runs', async () => {
    const port = String(await freePort());
    expect(await check({ PORT: String(await freePort()), MQTT_PORT: port })).toEqual({
      part: 'broker',
      state: 'ok',
      says: `the server is not running; the port of its broker is free (mqtt://127.0.0.1:${port})`,
    });
  });

  test('names the port that another program has', async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await new Promise((listening) => other.once('listening', listening));
    onTestFinished(() => void other.close());
    const { port } = other.address() as AddressInfo;
    const found = await check({ PORT: String(await freePort()), MQTT_PORT: String(port) });
    expect(found).toMatchObject({ state: 'wrong', mend: expect.stringMatching(/name it in BRANHEARTH_MQTT_URL$/) });
    expect(found.says).toMatch(new RegExp(`^Port ${port} on 127\\.0\\.0\\.1 is taken, .*BRANHEARTH_MQTT_PORT`));
  });
});

describe('check of an outside broker', () => {
  test('says that nothing answers there, and keeps the password of its address', async () => {
    const url = `mqtt://127.0.0.1:${await freePort()}`;
    expect(await check({ MQTT_URL: url.replace('//', '//me:secret@') })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(new RegExp(`^the broker at ${url}: .*ECONNREFUSED`)),
      mend: expect.stringMatching(/^start the broker, or put its address into BRANHEARTH_MQTT_URL/),
    });
  });

  test('gives up on what takes connections and says nothing', async () => {
    const silent = await startSilentServer();
    onTestFinished(() => silent.close());
    const found = await check({ MQTT_URL: silent.url.replace('smtp:', 'mqtt:') });
    expect(found).toMatchObject({ state: 'wrong', mend: expect.stringMatching(/address of an MQTT listener/) });
  });

  describe.skipIf(!hasMosquitto)('with Mosquitto', () => {
    async function broker(users?: Record<string, string>) {
      const folder = scratchFolder();
      const [passwords, access] = [join(folder, 'passwords'), join(folder, 'access')];
      // Mosquitto takes words as they are when it starts, and would say so; `mosquitto_passwd -U` is not needed for a test.
      const { mosquittoHash } = await import('../../../server/services/probe-keys/secret.ts');
      await writeFile(
        passwords,
        Object.keys(users ?? {})
          .map((user) => `${user}:${mosquittoHash('a password of the farm')}\n`)
          .join(''),
      );
      await writeFile(
        access,
        Object.entries(users ?? {})
          .map(([user, lines]) => `user ${user}\n${lines}\n`)
          .join('\n'),
      );
      const started = await startMosquitto(
        users === undefined ? {} : { allow_anonymous: 'false', password_file: passwords, acl_file: access },
      );
      onTestFinished(async () => {
        await started.remove();
        await rm(folder, { recursive: true, force: true });
      });
      return started.url;
    }
    const known = { MQTT_USERNAME: 'branhearth', MQTT_PASSWORD: 'a password of the farm' };

    test('is content with one that lets us in, hear and publish', async () => {
      const url = await broker();
      expect(await check({ MQTT_URL: url })).toEqual({
        part: 'broker',
        state: 'ok',
        says: `${url} lets us in, gives us piles/+/+/+, and brings back what we publish`,
      });
      const guarded = await broker({ branhearth: 'topic readwrite #' });
      expect(await check({ MQTT_URL: guarded, ...known })).toMatchObject({ state: 'ok' });
    });

    test('says which settings to give where it lets us in with a password only', async () => {
      const url = await broker({ branhearth: 'topic readwrite #' });
      for (const given of [{}, { ...known, MQTT_PASSWORD: 'a wrong one' }]) {
        expect(await check({ MQTT_URL: url, ...given })).toMatchObject({
          state: 'wrong',
          says: expect.stringMatching(/: Connection refused: /),
          mend: expect.stringMatching(/^set BRANHEARTH_MQTT_USERNAME and BRANHEARTH_MQTT_PASSWORD/),
        });
      }
    });

    test('says that publishing is refused, and that nothing comes back where only reading is', async () => {
      for (const lines of ['topic read #', 'topic write #']) {
        const url = await broker({ branhearth: lines });
        expect(await check({ MQTT_URL: url, ...known })).toMatchObject({
          state: 'wrong',
          says: `${url} lets us in, but what we publish to piles-check/… does not come back`,
          mend: expect.stringMatching(/topic readwrite #/),
        });
      }
    });
  });
});
