// Stand-ins for the parts of the ESP32 core that the sketch uses. The board's state comes by the environment.
#pragma once
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string>

class String {
  std::string s;

 public:
  String(const char *text = "") : s(text) {}
  String(const std::string &text) : s(text) {}
  explicit String(long value) : s(std::to_string(value)) {}
  String(float value, int decimals) {
    char text[40];
    snprintf(text, sizeof text, "%.*f", decimals, value);
    s = text;
  }
  unsigned length() const { return s.size(); }
  const char *c_str() const { return s.c_str(); }
  int indexOf(char sign) const { return s.find(sign) == std::string::npos ? -1 : (int)s.find(sign); }
  bool endsWith(const char *end) const {
    const std::string other = end;
    return s.size() >= other.size() && s.compare(s.size() - other.size(), other.size(), other) == 0;
  }
  String substring(unsigned from, unsigned to = ~0u) const { return String(s.substr(from, to == ~0u ? to : to - from)); }
  long toInt() const { return atol(s.c_str()); }
  void replace(const char *from, const char *to) {
    for (size_t at; (at = s.find(from)) != std::string::npos;) s.replace(at, strlen(from), to);
  }
  String &operator+=(const String &other) { s += other.s; return *this; }
  String &operator+=(const char *other) { s += other; return *this; }
  String &operator+=(char sign) { s += sign; return *this; }
  friend String operator+(const String &a, const String &b) { return String(a.s + b.s); }
};

inline double fromEnvironment(const char *name, double otherwise) {
  const char *text = getenv(name);
  return text ? atof(text) : otherwise;
}

struct Board {
  double clockMs = fromEnvironment("BOARD_MS", 0);
  double awakeMs = 0;
};
inline Board board;

inline time_t boardTime(time_t *) { return (time_t)(board.clockMs / 1000); }
#define time boardTime
inline uint32_t millis() { return (uint32_t)board.awakeMs; }
inline void delay(uint32_t ms) {
  board.clockMs += ms;
  board.awakeMs += ms;
}
template <class T> T constrain(T value, T least, T most) { return value < least ? least : value > most ? most : value; }
inline uint32_t analogReadMilliVolts(int pin) {
  return (uint32_t)lround(1000 * fromEnvironment(("PIN_" + std::to_string(pin)).c_str(), 0));
}
inline bool isSynchronised = false;
inline void configTime(long, int, const char *) {
  delay(300);
  isSynchronised = getenv("TIME_SERVER") != nullptr;
  if (isSynchronised) board.clockMs = fromEnvironment("WORLD_MS", 0) + board.awakeMs;
}
