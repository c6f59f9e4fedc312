/** The keys in force as files for a Mosquitto of one's own. */
import type { Config } from '../../../shared/config.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { accessFile, passwordFile } from '../../services/probe-keys/mosquitto-files.ts';
import type { Api } from '../api.ts';
import { attachment } from '../attachment.ts';

const plainText = 'text/plain; charset=utf-8';
const owner = { access: 'owner' } as const;

interface MosquittoFilesParts {
  readonly journal: Journal;
  readonly config: Pick<Config, 'MQTT_ROOT' | 'MQTT_USERNAME' | 'MQTT_PASSWORD'>;
}

export function registerMosquittoFiles(api: Api, { journal, config }: MosquittoFilesParts): void {
  const installationAccount = { username: config.MQTT_USERNAME, password: config.MQTT_PASSWORD };

  api.get(
    '/api/keys/mosquitto/passwords',
    { config: owner, schema: { summary: 'The keys in force as a password file for Mosquitto' } },
    async (_request, reply) => {
      const text = passwordFile(await journal.probeKeys.list(), installationAccount);
      return reply.headers(attachment('branhearth.passwd', plainText)).send(text);
    },
  );

  api.get(
    '/api/keys/mosquitto/topics',
    { config: owner, schema: { summary: 'What each key may publish and read, as an access file for Mosquitto' } },
    async (_request, reply) => {
      const text = accessFile(await journal.probeKeys.list(), config.MQTT_ROOT, installationAccount);
      return reply.headers(attachment('branhearth.acl', plainText)).send(text);
    },
  );
}
