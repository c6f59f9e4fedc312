# A probe on an ESP32 with MicroPython: it measures, keeps what nobody acknowledged, sends it with its time at QoS 1, and
# sleeps. Copy it to the board as main.py.
import json
import machine
import network
import ntptime
import os
import socket
import struct
import time

import ds18x20
import onewire

WIFI = @wifi@
WIFI_PASSWORD = @wifiPassword@
BROKER = @broker@
PORT = @port@
USER = @user@
PASSWORD = @password@
TOPIC = @topic@
TIME_SERVER = "pool.ntp.org"

EVERY_S = 600
DATA_PIN = 4  # the chip's data wire
SOIL_PIN = @soilPin@  # the soil probe's AOUT
SOIL_DRY_V = 2.4  # what it says in air, and in water to its mark: try yours
SOIL_WET_V = 1.0
BATTERY_PIN = @batteryPin@  # the middle of two equal resistors across the battery

KEPT = "kept.txt"
KEPT_BYTES = 100000  # about 2,000 readings; beyond that the oldest go
DATED = 1704067200  # 2024: a clock that says less was never set
EPOCH = 946684800 if time.gmtime(0)[0] == 2000 else 0  # boards count from 2000


def now():
    return time.time() + EPOCH


def volts(pin):
    return machine.ADC(machine.Pin(pin), atten=machine.ADC.ATTN_11DB).read_uv() / 1000000


def measure():
    reading = {"time": now()}
    try:
        bus = ds18x20.DS18X20(onewire.OneWire(machine.Pin(DATA_PIN)))
        chips = bus.scan()
        bus.convert_temp()
        time.sleep_ms(750)  # at its 12 bits
        reading["temperature"] = bus.read_temp(chips[0])
    except Exception as error:
        print("no temperature:", error)
    if SOIL_PIN is not None:
        wet = (SOIL_DRY_V - volts(SOIL_PIN)) / (SOIL_DRY_V - SOIL_WET_V)
        reading["moisture"] = round(100 * min(max(wet, 0), 1), 1)
    if BATTERY_PIN is not None:
        reading["battery"] = round(2 * volts(BATTERY_PIN), 2)
    return reading


def read(line):
    try:
        return json.loads(line)
    except ValueError:
        return None  # between two readings, or cut short by a power cut


def rewrite(change, start=0):
    # Beside the old one, then renamed: a power cut leaves the one or the other.
    with open(KEPT) as old, open(KEPT + ".new", "w") as new:
        old.seek(start)
        for line in old:
            reading = read(line)
            if reading is not None and change(reading):
                new.write("\n" + json.dumps(reading) + "\n")
    os.rename(KEPT + ".new", KEPT)


def keep(reading):
    with open(KEPT, "a") as file:
        if len(reading) > 1:  # more than its time
            file.write("\n" + json.dumps(reading) + "\n")
    size = os.stat(KEPT)[6]
    if size > KEPT_BYTES:
        rewrite(lambda reading: True, size - KEPT_BYTES // 10 * 9)


def join():
    wifi = network.WLAN(network.STA_IF)
    wifi.active(True)
    wifi.connect(WIFI, WIFI_PASSWORD)
    for _ in range(100):
        if wifi.isconnected():
            return
        time.sleep_ms(200)
    raise OSError("no Wi-Fi")


def set_clock():
    before, ticks = now(), time.ticks_ms()
    ntptime.host = TIME_SERVER
    try:
        ntptime.settime()
    except OSError:
        if before < DATED:
            raise  # nothing can be dated yet: all of it is kept
        return
    if before < DATED:
        passed = time.ticks_diff(time.ticks_ms(), ticks) // 1000
        ahead = now() - before - passed
        rewrite(lambda reading: date(reading, ahead))


def date(reading, ahead):
    if reading["time"] < DATED:
        reading["time"] += ahead
    return True


def text(value):
    return struct.pack("!H", len(value.encode())) + value.encode()


def packet(kind, body):
    head, length = bytearray([kind]), len(body)
    while length > 127:
        head.append(length & 127 | 128)
        length >>= 7
    head.append(length)
    return bytes(head) + body


def write(link, data):
    while data:
        data = data[link.send(data):]


def take(link, count):
    got = b""
    while len(got) < count:
        part = link.recv(count - len(got))
        if not part:
            raise OSError("the broker hung up")
        got += part
    return got


def connect():
    link = socket.socket()
    link.settimeout(20)
    link.connect(socket.getaddrinfo(BROKER, PORT)[0][-1])
    # MQTT 3.1.1, section 3.1: clean session, user name and password, keep alive for a minute.
    flags = 0xC2 if USER else 0x02
    body = text("MQTT") + bytes([4, flags, 0, 60]) + text(TOPIC.replace("/", "-"))
    write(link, packet(0x10, body + (text(USER) + text(PASSWORD) if USER else b"")))
    if take(link, 4)[3] != 0:
        raise OSError("the broker refused the key")
    return link


def send():
    link = connect()
    acknowledged, number = 0, 0
    try:
        with open(KEPT) as file:
            while True:
                line = file.readline()
                if not line:
                    break
                reading = read(line)
                if reading is not None:
                    number = number % 65535 + 1
                    write(link, packet(0x32, text(TOPIC) + struct.pack("!H", number) + json.dumps(reading).encode()))
                    if take(link, 4) != b"\x40\x02" + struct.pack("!H", number):
                        raise OSError("not the acknowledgement that was due")
                acknowledged = file.tell()
        write(link, b"\xe0\x00")
    finally:
        link.close()
        rewrite(lambda reading: True, acknowledged)


def wake():
    keep(measure())
    try:
        join()
        set_clock()
        send()
    except OSError as error:
        print("kept for later:", error)


if machine.reset_cause() != machine.DEEPSLEEP_RESET:
    time.sleep(5)  # to stop it from the keyboard
    open(KEPT, "a").close()
    # Without power the clock stood still: what was measured before it was ever set cannot be dated any more.
    rewrite(lambda reading: reading["time"] >= DATED)
try:
    wake()
except Exception as error:
    print(error)
machine.deepsleep(1000 * EVERY_S)
