// Files in the folder that the program runs in.
#pragma once
#include "Arduino.h"
class File {
  FILE *file;

 public:
  explicit File(FILE *opened) : file(opened) {}
  bool available() {
    const int sign = fgetc(file);
    if (sign == EOF) return false;
    ungetc(sign, file);
    return true;
  }
  String readStringUntil(char end) {
    std::string line;
    for (int sign; (sign = fgetc(file)) != EOF && sign != end;) line += (char)sign;
    return String(line);
  }
  void print(const String &text) { fwrite(text.c_str(), 1, text.length(), file); }
  bool seek(uint32_t position) { return fseek(file, position, SEEK_SET) == 0; }
  size_t position() { return ftell(file); }
  size_t size() {
    fflush(file);
    const long at = ftell(file);
    fseek(file, 0, SEEK_END);
    const long end = ftell(file);
    fseek(file, at, SEEK_SET);
    return end;
  }
  void close() { fclose(file); }
};
struct FileSystem {
  bool begin(bool) { return true; }
  File open(const char *path, const char *mode) { return File(fopen(path + 1, mode)); }
  bool rename(const char *from, const char *to) { return ::rename(from + 1, to + 1) == 0; }
};
inline FileSystem LittleFS;
