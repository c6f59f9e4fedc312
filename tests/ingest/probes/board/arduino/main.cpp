#include "Arduino.h"
void setup();
void loop();
int main() {
  setup();
  for (;;) loop();
}
