import { type Health, healthSchema } from '../../shared/contracts/health.ts';
import { askOwnServer, type OwnServer } from './ask-own-server.ts';

/** How a server of these settings is that is at work now; undefined where none answers. */
export async function ownHealth(own: OwnServer): Promise<Health | undefined> {
  const answer = await askOwnServer(own);
  try {
    return answer && healthSchema.parse(JSON.parse(answer.text));
  } catch {
    return undefined; // something else answers there
  }
}
