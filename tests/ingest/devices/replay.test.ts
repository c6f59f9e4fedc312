/**
 * Messages of twelve families at once, in an order that is shuffled: every reading is there once, under its own name and
 * in its own unit, and nothing is refused that is no reading.
 */
import { expect, test } from 'vitest';
import type { Reading } from '../../../shared/reading.ts';
import { ruuviData } from '../../helpers/ruuvi-data.ts';
import { openDevices, startMs } from './open-devices.ts';

interface Sent {
  readonly family: string;
  readonly topic: string;
  readonly payload: string;
  /** "probe quantity value", at the time of the message. */
  readonly means: readonly string[];
  readonly site?: string;
}

const steps = 6;
const devices = 3;
const json = (value: unknown) => JSON.stringify(value);
/** A value of its own for each device, sensor and step, so that one under a wrong name is seen. */
const value = (device: number, sensor: number, step: number) => 20 + device * 9 + sensor * 3 + step / 4;
const hex = (device: number) => `0a0b0c0d0e${device.toString(16).padStart(2, '0')}`;

type Maker = (device: number, step: number, atMs: number) => Omit<Sent, 'family'>;

const families: Record<string, Maker> = {
  'our own topics'(device, step, atMs) {
    const tempC = value(device, 0, step);
    const payload = json({ temperature: tempC, humidity: 80 + device, time: atMs });
    return {
      topic: `piles/yard/own-${device}/reading`,
      payload,
      site: 'yard',
      means: [`own-${device} temperature ${tempC}`, `own-${device} humidity ${80 + device}`],
    };
  },
  esphome(device, step) {
    const tempC = value(device, 0, step);
    return {
      topic: `node-${device}/sensor/core_temperature/state`,
      payload: String(tempC),
      means: [`node-${device}-core temperature ${tempC}`],
    };
  },
  tasmota(device, step) {
    const [one, two] = [value(device, 0, step), value(device, 1, step)];
    // The chips change their numbers at every other step, as when one fails and comes back.
    const names = step % 2 === 0 ? ['DS18B20-1', 'DS18B20-2'] : ['DS18B20-2', 'DS18B20-1'];
    const payload = json({
      Time: '2026-11-29T21:00:00',
      [names[0] ?? '']: { Id: `AA0${device}`, Temperature: (one * 9) / 5 + 32 },
      [names[1] ?? '']: { Id: `BB0${device}`, Temperature: (two * 9) / 5 + 32 },
      TempUnit: 'F',
    });
    return {
      topic: `tele/board-${device}/SENSOR`,
      payload,
      means: [`board-${device}-aa0${device} temperature ${one}`, `board-${device}-bb0${device} temperature ${two}`],
    };
  },
  zigbee2mqtt(device, step, atMs) {
    const tempC = value(device, 0, step);
    const payload = json({
      temperature: tempC,
      soil_moisture: 30 + step,
      battery: 90,
      last_seen: atMs,
      linkquality: 80,
    });
    return {
      topic: `zigbee2mqtt/yard/z-${device}`,
      payload,
      means: [
        `yard-z-${device} temperature ${tempC}`,
        `yard-z-${device} moisture ${30 + step}`,
        `yard-z-${device} charge 90`,
      ],
    };
  },
  'the-things-stack'(device, step, atMs) {
    const tempC = value(device, 0, step);
    const at = new Date(atMs).toISOString();
    const payload = json({ uplink_message: { decoded_payload: { TempC1: tempC, BatV: 3.1 }, received_at: at } });
    return {
      topic: `v3/farm@ttn/devices/lora-${device}/up`,
      payload,
      means: [`lora-${device}-1 temperature ${tempC}`],
    };
  },
  chirpstack(device, step, atMs) {
    const tempC = value(device, 0, step);
    const payload = json({
      time: new Date(atMs).toISOString(),
      deviceInfo: { deviceName: 'x' },
      object: { temperature: tempC, humidity: 70 },
      rxInfo: [{ rssi: -70 - device }],
    });
    const probe = `00000000000000c${device}`;
    return {
      topic: `application/1/device/${probe}/event/up`,
      payload,
      means: [`${probe} temperature ${tempC}`, `${probe} humidity 70`, `${probe} rssi ${-70 - device}`],
    };
  },
  ruuvi(device, step, atMs) {
    const tempC = value(device, 0, step);
    const payload = json({ rssi: -60, ts: String(atMs / 1000), data: ruuviData(tempC) });
    return {
      topic: `ruuvi/AA:AA:AA:AA:AA:AA/${hex(device)}`,
      payload,
      means: [`ruuvi-${hex(device)} temperature ${tempC}`, `ruuvi-${hex(device)} rssi -60`],
    };
  },
  theengs(device, step) {
    const tempC = value(device, 0, step);
    const payload = json({
      id: hex(device + 16),
      tempc: tempC,
      tempf: (tempC * 9) / 5 + 32,
      hum: 61,
      batt: 80,
      rssi: -66,
    });
    const probe = `ble-${hex(device + 16)}`;
    return {
      topic: `home/TheengsGateway/BTtoMQTT/${hex(device + 16)}`,
      payload,
      means: [`${probe} temperature ${tempC}`, `${probe} humidity 61`, `${probe} charge 80`, `${probe} rssi -66`],
    };
  },
  'radio over OpenMQTTGateway'(device, step) {
    const tempC = value(device, 0, step);
    const payload = json({
      model: 'Acurite-Tower',
      id: device,
      channel: 'A',
      battery_ok: 1,
      temperature_F: (tempC * 9) / 5 + 32,
    });
    return {
      topic: `home/omg/RTL_433toMQTT/Acurite-Tower/A/${device}`,
      payload,
      means: [`acurite-tower-${device}-a temperature ${tempC}`],
    };
  },
  shelly(device, step, atMs) {
    const tempC = value(device, 0, step);
    const payload = json({
      method: 'NotifyStatus',
      params: { ts: atMs / 1000, 'temperature:100': { id: 100, tC: tempC, tF: 1 } },
    });
    return { topic: `shelly-${device}/events/rpc`, payload, means: [`shelly-${device}-100 temperature ${tempC}`] };
  },
  homie(device, step) {
    const tempC = value(device, 0, step);
    return {
      topic: `homie/5/h-${device}/core/temperature`,
      payload: String(tempC + 273.15),
      means: [`h-${device}-core temperature ${tempC}`],
    };
  },
  discovery(device, step) {
    const tempC = value(device, 0, step);
    return {
      topic: `yard/disc-${device}`,
      payload: json({ a: [{ t: (tempC * 9) / 5 + 32 }] }),
      means: [`disc-${device} temperature ${tempC}`],
    };
  },
};

/** Of others, in the same places: none is a reading, none a fault. */
const noise: [string, string][] = [
  ['tele/board-0/STATE', '{"Uptime":"1T00:00:00","Wifi":{"RSSI":90}}'],
  ['zigbee2mqtt/bridge/state', '{"state":"online"}'],
  ['zigbee2mqtt/yard/z-0', '{"action":"single"}'],
  ['node-0/sensor/core_temperature/state', 'nan'],
  ['node-0/debug', 'temperature 41'],
  ['shelly-0/status/switch:0', '{"id":0,"output":true,"temperature":{"tC":50}}'],
  ['home/omg/BTtoMQTT/45E174126E00', '{"id":"45:e1:74:12:6e:00","rssi":-89}'],
  ['v3/farm@ttn/devices/lora-0/join', '{}'],
  ['homie/5/h-0/core/limit', '45'],
  ['homeassistant/light/x/config', '{"name":"x","stat_t":"x/state"}'],
];

/** Mulberry32, so that the order is the same in every run. */
function shuffled<Item>(items: readonly Item[]): Item[] {
  let state = 20261129;
  const random = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return items
    .map((item) => ({ item, at: random() }))
    .sort((one, other) => one.at - other.at)
    .map(({ item }) => item);
}

test('over 200 messages of 12 families at once: every reading there once, none under a wrong name or unit', () => {
  const { take, time, reasons } = openDevices();
  for (let device = 0; device < devices; device += 1) {
    take(
      `homie/5/h-${device}/$description`,
      json({
        nodes: {
          core: {
            properties: {
              temperature: { datatype: 'float', unit: 'K' },
              limit: { datatype: 'float', unit: 'K', settable: true },
            },
          },
        },
      }),
    );
    take(
      `homeassistant/device/disc-${device}/config`,
      json({
        dev: { ids: [`disc-${device}`], name: 'D' },
        stat_t: `yard/disc-${device}`,
        cmps: {
          t: {
            p: 'sensor',
            name: 'Temperature',
            dev_cla: 'temperature',
            unit_of_meas: '°F',
            val_tpl: '{{ value_json.a[0].t }}',
          },
        },
      }),
    );
  }
  const expected: string[] = [];
  const got: string[] = [];
  const keep = (readings: readonly Reading[]) => {
    for (const { site, probe, quantity, value: kept } of readings) got.push(`${site}/${probe} ${quantity} ${kept}`);
  };
  let messages = 0;
  for (let step = 0; step < steps; step += 1) {
    time.nowMs = startMs + step * 60_000;
    const sent = Object.entries(families).flatMap(([family, make]) =>
      Array.from({ length: devices }, (_, device): Sent => ({ family, ...make(device, step, time.nowMs) })),
    );
    const others = noise.map(([topic, payload]): Sent => ({ family: 'others', topic, payload, means: [] }));
    for (const { topic, payload, means, site = 'devices' } of shuffled([...sent, ...others])) {
      messages += 1;
      const readings = take(topic, payload);
      keep(readings);
      expect(readings.every(({ atMs }) => atMs === time.nowMs)).toBe(true);
      expected.push(...means.map((one) => `${site}/${one}`));
    }
  }
  expect(Object.keys(families)).toHaveLength(12);
  expect(messages).toBeGreaterThan(200);
  expect(got.sort()).toEqual(expected.sort());
  expect(new Set(got).size).toBeGreaterThan(200);
  expect(reasons()).toEqual([]);
});
