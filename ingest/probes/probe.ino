// A probe on an ESP32: it measures, keeps what nobody acknowledged, sends it with its time at QoS 1, and sleeps.
// Libraries: OneWire and DallasTemperature. MQTT is written out below, as the usual small library for it sends at QoS 0 only.
#include <Arduino.h>
#include <DallasTemperature.h>
#include <LittleFS.h>
#include <OneWire.h>
#include <WiFi.h>
#include <esp_sleep.h>
#include <esp_sntp.h>
#include <esp_system.h>
#include <time.h>

const char *const WIFI = @wifi@;
const char *const WIFI_PASSWORD = @wifiPassword@;
const char *const BROKER = @broker@;
const uint16_t PORT = @port@;
const char *const USER = @user@;
const char *const PASSWORD = @password@;
const char *const TOPIC = @topic@;
const char *const TIME_SERVER = "pool.ntp.org";

const uint32_t EVERY_S = 600;
const int DATA_PIN = 4;  // the chip's data wire
const int SOIL_PIN = @soilPin@;  // the soil probe's AOUT; -1 for none
const float SOIL_DRY_V = 2.4;  // what it says in air, and in water to its mark: try yours
const float SOIL_WET_V = 1.0;
const int BATTERY_PIN = @batteryPin@;  // the middle of two equal resistors across the battery; -1 for none

const char *const KEPT = "/kept.txt";
const char *const KEPT_NEW = "/kept.new";
const size_t KEPT_BYTES = 100000;  // about 2,000 readings; beyond that the oldest go
const long DATED = 1704067200;  // 2024: a clock that says less was never set

/** A line of what is kept: when it was measured, and its values as JSON. */
struct Reading {
  long at;
  String values;
};

/** False between two readings, and for one that a power cut cut short. */
bool read(const String &line, Reading &reading) {
  const int gap = line.indexOf(' ');
  if (gap < 1 || !line.endsWith("}")) return false;
  reading.at = line.substring(0, gap).toInt();
  reading.values = line.substring(gap + 1);
  return true;
}

void write(File &file, const Reading &reading) {
  file.print("\n" + String(reading.at) + " " + reading.values + "\n");
}

/** Beside the old one, then renamed: a power cut leaves the one or the other. `ahead` dates what was not dated yet. */
void rewrite(size_t start, bool undatedToo, long ahead = 0) {
  File old = LittleFS.open(KEPT, "r");
  File fresh = LittleFS.open(KEPT_NEW, "w");
  old.seek(start);
  Reading reading;
  while (old.available()) {
    if (!read(old.readStringUntil('\n'), reading)) continue;
    if (reading.at < DATED) {
      if (!undatedToo) continue;
      reading.at += ahead;
    }
    write(fresh, reading);
  }
  old.close();
  fresh.close();
  LittleFS.rename(KEPT_NEW, KEPT);
}

void keep(const Reading &reading) {
  File file = LittleFS.open(KEPT, "a");
  if (reading.values.length() > 2) write(file, reading);
  const size_t size = file.size();
  file.close();
  if (size > KEPT_BYTES) rewrite(size - KEPT_BYTES / 10 * 9, true);
}

void add(String &values, const char *name, float value, int decimals) {
  if (values.length() > 1) values += ",";
  values += "\"" + String(name) + "\":" + String(value, decimals);
}

float volts(int pin) { return analogReadMilliVolts(pin) / 1000.0; }

Reading measure() {
  Reading reading = {(long)time(nullptr), "{"};
  OneWire bus(DATA_PIN);
  DallasTemperature chips(&bus);
  chips.begin();
  chips.requestTemperatures();
  const float celsius = chips.getTempCByIndex(0);
  if (celsius != DEVICE_DISCONNECTED_C) add(reading.values, "temperature", celsius, 4);
  if (SOIL_PIN >= 0) {
    const float wet = (SOIL_DRY_V - volts(SOIL_PIN)) / (SOIL_DRY_V - SOIL_WET_V);
    add(reading.values, "moisture", 100 * constrain(wet, 0.0f, 1.0f), 1);
  }
  if (BATTERY_PIN >= 0) add(reading.values, "battery", 2 * volts(BATTERY_PIN), 2);
  reading.values += "}";
  return reading;
}

bool join() {
  WiFi.mode(WIFI_STA);
  WiFi.begin(WIFI, WIFI_PASSWORD);
  for (int i = 0; i < 100 && WiFi.status() != WL_CONNECTED; i++) delay(200);
  return WiFi.status() == WL_CONNECTED;
}

/** False while nothing can be dated: then all of it is kept. */
bool setClock() {
  const long before = time(nullptr);
  const uint32_t startMs = millis();
  configTime(0, 0, TIME_SERVER);
  for (int i = 0; i < 50 && sntp_get_sync_status() != SNTP_SYNC_STATUS_COMPLETED; i++) delay(200);
  const long now = time(nullptr);
  if (now < DATED) return false;
  if (before < DATED) rewrite(0, true, now - before - (millis() - startMs) / 1000);
  return true;
}

String number(uint16_t value) {
  String two;
  two += (char)(value >> 8);
  two += (char)(value & 255);
  return two;
}

String text(const String &value) { return number(value.length()) + value; }

bool sendPacket(WiFiClient &link, uint8_t kind, const String &body) {
  String packet;
  packet += (char)kind;
  size_t length = body.length();
  for (; length > 127; length >>= 7) packet += (char)((length & 127) | 128);
  packet += (char)length;
  packet += body;
  return link.write((const uint8_t *)packet.c_str(), packet.length()) == packet.length();
}

/** Four bytes, as both answers are that can come: of the connection and of a message. */
bool take(WiFiClient &link, uint8_t answer[4]) {
  for (int i = 0; i < 1000 && link.connected() && link.available() < 4; i++) delay(20);
  return link.read(answer, 4) == 4;
}

bool connectBroker(WiFiClient &link) {
  if (!link.connect(BROKER, PORT)) return false;
  // MQTT 3.1.1, section 3.1: clean session, user name and password, keep alive for a minute.
  const bool hasKey = USER[0] != 0;
  String id = TOPIC;
  id.replace("/", "-");
  String body = text("MQTT");
  body += (char)4;
  body += (char)(hasKey ? 0xC2 : 0x02);
  body += number(60) + text(id);
  if (hasKey) body += text(USER) + text(PASSWORD);
  uint8_t answer[4];
  return sendPacket(link, 0x10, body) && take(link, answer) && answer[0] == 0x20 && answer[3] == 0;
}

bool publish(WiFiClient &link, const Reading &reading, uint16_t id) {
  const String payload = "{\"time\":" + String(reading.at) + "," + reading.values.substring(1);
  uint8_t answer[4];
  return sendPacket(link, 0x32, text(TOPIC) + number(id) + payload) && take(link, answer) && answer[0] == 0x40 &&
         answer[2] == (id >> 8) && answer[3] == (id & 255);
}

void sendKept() {
  WiFiClient link;
  if (!connectBroker(link)) return;
  size_t acknowledged = 0;
  uint16_t id = 0;
  File file = LittleFS.open(KEPT, "r");
  Reading reading;
  while (file.available()) {
    if (read(file.readStringUntil('\n'), reading)) {
      id = id % 65535 + 1;
      if (!publish(link, reading, id)) break;
    }
    acknowledged = file.position();
  }
  file.close();
  sendPacket(link, 0xE0, "");
  link.stop();
  rewrite(acknowledged, true);
}

void setup() {
  LittleFS.begin(true);
  // Without power the clock stood still: what was measured before it was ever set cannot be dated any more.
  if (esp_reset_reason() != ESP_RST_DEEPSLEEP) {
    LittleFS.open(KEPT, "a").close();
    rewrite(0, false);
  }
  keep(measure());
  if (join() && setClock()) sendKept();
  esp_sleep_enable_timer_wakeup(1000000ULL * EVERY_S);
  esp_deep_sleep_start();
}

void loop() {}
