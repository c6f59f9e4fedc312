# Stand-ins for what a board has: each part below `# file:` becomes that module.
# file: time.py
import board
import utime


def time():
    return board.seconds() - 946684800


def gmtime(seconds):
    return utime.gmtime(seconds + 946684800)


def ticks_ms():
    return board.ticksMs()


def ticks_diff(later, earlier):
    return later - earlier


def sleep(seconds):
    board.passTime(1000 * seconds)


def sleep_ms(ms):
    board.passTime(ms)


# file: machine.py
import board

DEEPSLEEP_RESET = 4


def reset_cause():
    return 1 if board.isCold() else DEEPSLEEP_RESET


def deepsleep(ms):
    raise SystemExit("asleep for %d ms" % ms)


class Pin:
    def __init__(self, number):
        self.number = number


class ADC:
    ATTN_11DB = 3

    def __init__(self, pin, atten):
        self.pin = pin

    def read_uv(self):
        return round(1000000 * board.pinV(self.pin.number))


# file: network.py
import board

STA_IF = 0


class WLAN:
    def __init__(self, which):
        pass

    def active(self, on):
        pass

    def connect(self, name, password):
        pass

    def isconnected(self):
        return board.hasNetwork()


# file: ntptime.py
import board

host = None


def settime():
    board.passTime(300)
    if not board.hasTimeServer():
        raise OSError("no answer from " + host)
    board.setClock()


# file: onewire.py
class OneWire:
    def __init__(self, pin):
        pass


# file: ds18x20.py
import board


class DS18X20:
    def __init__(self, bus):
        pass

    def scan(self):
        return [] if board.chipC() is None else [b"\x28"]

    def convert_temp(self):
        pass

    def read_temp(self, chip):
        return board.chipC()


# file: socket.py
import binascii
import board


def getaddrinfo(host, port):
    return [(2, 1, 0, "", (host, port))]


def answered(said):
    if said.startswith("-"):
        raise OSError(said[1:])
    return binascii.unhexlify(said)


class socket:
    def settimeout(self, seconds):
        pass

    def connect(self, address):
        answered(board.ask("connect %s %d" % address))

    def send(self, data):
        # Not all at once, as a full buffer makes it.
        part = data[:100]
        answered(board.ask("send " + binascii.hexlify(part).decode()))
        return len(part)

    def recv(self, count):
        return answered(board.ask("recv %d" % count))

    def close(self):
        board.ask("close")
