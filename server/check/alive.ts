/** Whether the server of this container is up and can work, for the health check of its image: ends with 0 or 1. */
import { askOwnServer } from './ask-own-server.ts';

const {
  BRANHEARTH_HOST: HOST = '127.0.0.1',
  BRANHEARTH_PORT: PORT = '4180',
  BRANHEARTH_TLS_CERT: TLS_CERT,
} = process.env;

void askOwnServer({ HOST, PORT, TLS_CERT }).then((answer) => {
  console.log(answer?.text ?? 'the server does not answer');
  process.exitCode = answer?.status === 200 ? 0 : 1;
});
