import { afterAll, beforeAll, describe } from 'vitest';
import { latestInfluxMs } from '../../../shared/store/influx/line-protocol.ts';
import { openInfluxReadings } from '../../../shared/store/influx-readings.ts';
import { hasInflux, startInflux, type TestInflux } from '../../helpers/influxdb.ts';
import { readingsStoreContract } from './readings-store-contract.ts';

describe.skipIf(!hasInflux)('InfluxDB 1.6', () => {
  let influx: TestInflux;
  beforeAll(async () => {
    influx = await startInflux();
  });
  afterAll(() => influx.remove());

  readingsStoreContract(
    'readings in InfluxDB',
    async () => {
      const address = await influx.newDatabase();
      let store = await openInfluxReadings(address);
      return {
        store,
        reopen: async () => {
          await store.close();
          store = await openInfluxReadings(address);
          return store;
        },
      };
    },
    { latestMs: latestInfluxMs },
  );
});
