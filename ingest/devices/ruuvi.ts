/** Ruuvi sensors over Ruuvi gateways: their advertisements as they were heard, on `ruuvi/<gateway>/<sensor>`. */
import { BoundedMap } from '../../shared/bounded-map.ts';
import { macDigits } from './device-name.ts';
import {
  availabilityBy,
  type DeviceFamily,
  type DeviceReport,
  type DeviceValue,
  type FamilyReader,
  textAt,
} from './family.ts';
import { readAdvertisement } from './ruuvi-data.ts';

export const ruuvi: DeviceFamily = {
  id: 'ruuvi',
  filters: [{ filter: 'ruuvi/+/+', timed: true }],
  open,
};

const rememberedSensors = 5_000;

function open(): FamilyReader {
  /** Heard by another gateway already; of each sensor the second that counted last. */
  const lastS = new BoundedMap<string | number>(rememberedSensors);

  return {
    read(message) {
      const [, gateway = '', sensor = ''] = message.levels;
      const body = message.json();
      if (body === undefined) return undefined;
      if (sensor === 'gw_status') return availabilityBy(gateway, body.state);
      const data = readAdvertisement(textAt(body, 'data') ?? '');
      // Without its time, as gateways say it whose clock is not set, it counts from its arrival.
      const time = typeof body.ts === 'string' || typeof body.ts === 'number' ? body.ts : undefined;
      if (data === undefined) return undefined;
      const mac = macDigits(sensor);
      if (time !== undefined && lastS.get(mac) === time) return 'ours';
      if (time !== undefined) lastS.set(mac, time);
      const report: DeviceReport = {
        via: gateway,
        device: `ruuvi-${mac}`,
        label: `Ruuvi ${mac.slice(-4).toUpperCase()}`,
        values: [
          one('temperature', data.temperatureC),
          one('humidity', data.humidityPct),
          one('co2', data.co2Ppm),
          one('battery', data.batteryV),
          one('rssi', body.rssi),
        ],
        time,
      };
      return [report];
    },
  };
}

const one = (quantity: DeviceValue['quantity'], found: unknown): DeviceValue => ({
  quantity,
  part: '',
  found,
  where: quantity === 'rssi' ? '/rssi' : '/data',
});
