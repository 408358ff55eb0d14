#!/usr/bin/env python3
"""What an X server shows (Xvfb -fbdir keeps it in a file, XWD of 32 bits) as a PNG: screen_to_png.py XWD PNG."""
import struct
import sys
import zlib

with open(sys.argv[1], "rb") as file:
    bytes_ = file.read()
head = struct.unpack(">25I", bytes_[:100])
header_size, width, height, bits, line, colours = head[0], head[4], head[5], head[11], head[12], head[19]
assert bits == 32, "a screen of 24 bits is expected"
at = header_size + 12 * colours
rows = bytearray()
for y in range(height):
    row = bytes_[at + y * line:at + y * line + 4 * width]
    rgb = bytearray(3 * width)
    rgb[0::3], rgb[1::3], rgb[2::3] = row[2::4], row[1::4], row[0::4]
    above = previous if y else bytes(3 * width)
    rows += b"\2" + bytes((now - before) & 0xFF for now, before in zip(rgb, above))  # each row as its change from the last
    previous = rgb


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


with open(sys.argv[2], "wb") as file:
    file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)) +
               chunk(b"IDAT", zlib.compress(bytes(rows), 9)) + chunk(b"IEND", b""))
