// Sockets of the system; after SENDS packets the network goes away.
#pragma once
#include <netdb.h>
#include <sys/socket.h>
#include <unistd.h>
#include "Arduino.h"
enum { WL_DISCONNECTED, WL_CONNECTED, WIFI_STA };
struct WiFiOfBoard {
  void mode(int) {}
  void begin(const char *, const char *) {}
  int status() { return getenv("NETWORK") ? WL_CONNECTED : WL_DISCONNECTED; }
};
inline WiFiOfBoard WiFi;
class WiFiClient {
  int link = -1;
  int sends = (int)fromEnvironment("SENDS", -1);

 public:
  bool connect(const char *host, uint16_t port) {
    addrinfo hints{}, *found = nullptr;
    hints.ai_socktype = SOCK_STREAM;
    if (getaddrinfo(host, std::to_string(port).c_str(), &hints, &found) != 0) return false;
    link = socket(found->ai_family, SOCK_STREAM, 0);
    const bool isOpen = ::connect(link, found->ai_addr, found->ai_addrlen) == 0;
    freeaddrinfo(found);
    return isOpen;
  }
  size_t write(const uint8_t *data, size_t length) {
    if (sends == 0) return 0;
    if (sends > 0) sends -= 1;
    return send(link, data, length, MSG_NOSIGNAL);
  }
  bool connected() { return sends != 0; }
  /** Waits, as time does not pass here by itself. What went out may have arrived although its answer does not come. */
  int available() {
    uint8_t answer[4];
    return sends == 0 ? 0 : recv(link, answer, 4, MSG_PEEK | MSG_WAITALL);
  }
  int read(uint8_t *to, size_t length) { return sends == 0 ? -1 : recv(link, to, length, 0); }
  void stop() { close(link); }
};
