/** Where this server may send at all, and its own sign of life. */
import { serverNotificationsAnswerSchema, serverNotificationsSchema } from '../../../shared/contracts/notifications.ts';
import type { Delivery } from '../../notify/delivery.ts';
import type { Api } from '../api.ts';

const owner = { access: 'owner' as const };

interface ServerNotificationsParts {
  readonly delivery: Delivery;
}

export function registerServerNotifications(api: Api, { delivery }: ServerNotificationsParts): void {
  const view = async () => ({
    allowedAddresses: [...(await delivery.settings.allowed())],
    heartbeatUrl: (await delivery.settings.heartbeatUrl()) ?? null,
    heartbeat: delivery.heartbeat(),
  });

  api.get(
    '/api/notifications/server',
    { config: owner, schema: { response: { 200: serverNotificationsAnswerSchema } } },
    view,
  );

  api.put(
    '/api/notifications/server',
    {
      config: { ...owner, does: 'audit.did.changed-where-messages-may-go' },
      schema: { body: serverNotificationsSchema, response: { 200: serverNotificationsAnswerSchema } },
    },
    async (request) => {
      await delivery.settings.setAllowed(request.body.allowedAddresses);
      await delivery.settings.setHeartbeatUrl(request.body.heartbeatUrl);
      return view();
    },
  );
}
