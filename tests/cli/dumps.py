# SPDX-License-Identifier: GPL-3.0-or-later
"""Random SMBIOS dumps, valid by DMTF DSP0134 3.9 (offsets and codes: shared/facts/smbios_*.csv),
with what was put into each memory device. Nothing here is taken from the readers."""
import struct

# Where each field of type 17 ends. A length inside a field does not cover it.
ENDS = {"name": 0x11, "bank": 0x12, "speed": 0x17, "maker": 0x18, "serial": 0x19, "part": 0x1b, "ranks": 0x1c, "extended": 0x20,
        "configured": 0x22, "technology": 0x29, "extended_speed": 0x58, "extended_configured": 0x5c}
AGES = (0x15, 0x1b, 0x1c, 0x22, 0x28, 0x54, 0x5c, 0x64)

NAMES = (b"A%d", b"DIMM_A%d", b"DIMM %d", b"P0_Node0_Channel%d_Dimm0", b"CPU1 DIMM %d", b"PROC 2 DIMM %d",
         b"ChannelA-DIMM%d", b"Slot%d/Bottom", b"C%d", b"Board #0x%d, slot: 3", b"DIMM%dB", b"%d")
ODD_NAMES = (b"", b"    ", b"Not Specified", b"<BAD INDEX>", b"  padded   inside  ", b"A1", b"DIMM_A1",
             b"Size: 16 GB", b"> quoted", b"No Module Installed", b"None", b"-", b"Memory Device",
             b"ends with a colon:", b"x" * 300)
HIGH = (b"DIMM\xb0A1", "Steckplatz ä1".encode(), b"tab\there", b"\x01bell\x07", b"\xff\xff\xff\xff",
        b"ends in \x80", b"\x7fdelete", b"cut utf-8 \xc3", "目盛り".encode(), b"nbsp\xa0", b"new\nline")
TEXTS = (b"KW4R32-2933A", b"7714-X 32", b"0A1B2C3D", b"  GX8T02-B    ", b"Field Memory Works", b"04CD", b"7",
         b"12345678", b"a:b:c", b"Rank: 7", b"<odd>", b"Unknown Ltd 3", b"None-1", b"80CE",
         b"y" * 300)
# Fillers met in real machines, shared/facts/locators.md section 4; all of them say nothing.
FILLERS = (b"", b"   ", b"Unknown", b"UNKNOWN", b"Not Specified", b"NO DIMM", b"00000000", b"FFFFFFFF",
           b"xxxx", b"Undefined", b"None", b"ModulePartNumber03", b"Dimm0_PartNum", b"SerNum02",
           b"To Be Filled By O.E.M.", b"Not Available", b"Manufacturer1", b"N/A", b"<BAD INDEX>", b"0")


def structure(kind, handle, body, strings):
    texts = b"".join(s + b"\0" for s in strings) or b"\0"
    return struct.pack("<BBH", kind, 4 + len(body), handle) + bytes(body) + texts + b"\0"


class Device:
    """One type 17: what the fields hold, and the structure's bytes."""

    def __init__(self, rand, handle, arrays, ascii_only):
        self.handle, self.rand, self.strings = handle, rand, []
        self.length = rand.choice(AGES) if rand.random() < 0.7 else rand.randint(0x15, 0x64)
        self.array = rand.choice(arrays) if arrays and rand.random() < 0.95 else 0x7777
        self.size, self.extended = self.pick_size()
        self.form = rand.choice((9, 9, 9, 9, 13, 5, 11, 16, rand.randint(0, 0x13), rand.randint(0, 255)))
        self.type = rand.choice((0x1a, 0x1a, 0x22, 0x18, 0x1e, 0x23, 9, rand.randint(0, 0x25),
                                 rand.randint(0, 255)))
        self.detail = rand.choice((0x80, 0x2080, 0x4080, 0xa080, 0, 0x6080, 0x1080, rand.randint(0, 0xffff)))
        self.widths = rand.choice(((72, 64), (64, 64), (80, 64), (0xffff, 0xffff), (0, 0), (8, 0), (72, 72),
                                   (128, 64), (64, 0xffff), (16, 16), (rand.randint(0, 0xffff), 7)))
        self.speed, self.extended_speed = self.pick_rate()
        self.configured, self.extended_configured = self.pick_rate()
        self.ranks = rand.randint(0, 255)
        self.technology = rand.choice((3, 3, 3, 0, 1, 2, 4, 5, 6, 7, 8, rand.randint(0, 255)))
        self.put = {}
        self.bytes = self.write(ascii_only)

    def pick_size(self):
        rand = self.rand
        extended = rand.choice((32768, 65536, 131072, 262144, 98304, 1 << 20, 3 << 20, 32767, (1 << 20) + 1,
                                49153, rand.randint(1, 0x7fffffff), 0x7fffffff, 0))
        size = rand.choice((0, 0, 0xffff, 0x7fff, 0x7fff, 16384, 8192, 4096, 1024, 1, 0x7ffe, 0x8000, 0x8001,
                            0x8200, 0x8400, 0xfffe, rand.randint(0, 0xffff)))
        return size, extended if size == 0x7fff or rand.random() < 0.2 else 0

    def pick_rate(self):
        rand = self.rand
        rate = rand.choice((0, 0xffff, 2133, 2400, 2666, 2667, 2933, 3200, 4800, 5600, 800, 667, 1333, 1067, 2, 33,
                            49926, 0xfffe, rand.randint(0, 0xffff)))
        extended = rand.choice((0, 6400, 8800, 65535, 70000, 0x7fffffff, rand.randint(0, 0x7fffffff)))
        return rate, extended if rate == 0xffff or rand.random() < 0.2 else 0

    def text(self, field, pools):
        """A string number: 0, a number beyond the set, or the next."""
        chance = self.rand.random()
        self.put[field] = None
        if chance < 0.06:
            return 0
        if chance < 0.1:
            return 200 + len(self.put)
        value = self.rand.choice(self.rand.choice(pools))
        if value == b"":  # an empty string cannot stand in a set
            return 0
        if b"%d" in value:
            value = value.replace(b"%d", b"%d" % self.rand.randint(0, 12))
        self.put[field] = value
        self.strings.append(value)
        return len(self.strings)

    def write(self, ascii_only):
        high = () if ascii_only else (HIGH,)
        body = bytearray(0x64)
        struct.pack_into("<HHHHHBB", body, 4, self.array, 0xfffe, *self.widths, self.size, self.form, 0)
        body[0x10] = self.text("name", (NAMES, NAMES, NAMES, ODD_NAMES) + high)
        body[0x11] = self.text("bank", (NAMES, NAMES, ODD_NAMES) + high)
        struct.pack_into("<BHH", body, 0x12, self.type, self.detail, self.speed)
        body[0x17] = self.text("maker", (TEXTS, TEXTS, FILLERS) + high)
        body[0x18] = self.text("serial", (TEXTS, TEXTS, FILLERS) + high)
        body[0x19] = self.text("asset", (TEXTS, FILLERS) + high)
        body[0x1a] = self.text("part", (TEXTS, TEXTS, FILLERS) + high)
        body[0x1b] = self.ranks
        struct.pack_into("<IHHHHB", body, 0x1c, self.extended, self.configured, 1100, 1350, 1200,
                         self.technology)
        body[0x29:0x54] = bytes(self.rand.randrange(256) for _ in range(0x54 - 0x29))
        body[0x2b] = self.text("firmware", (TEXTS,))
        struct.pack_into("<II", body, 0x54, self.extended_speed, self.extended_configured)
        body[0x5c:] = bytes(self.rand.randrange(256) for _ in range(8))
        return structure(17, self.handle, body[4:self.length], self.strings)

    def covers(self, field):
        return self.length >= ENDS[field]


def array(rand, handle):
    use = rand.choice((3, 3, 3, 3, 1, 2, 4, 5, 6, 7, rand.randint(0, 255)))
    kib = rand.choice((0x80000000, 1 << 28, 0, rand.randint(0, 0x7fffffff)))
    body = struct.pack("<BBBIHH", rand.choice((1, 2, 3, 10, 0xa0, 0xa4)), use, rand.choice((1, 2, 3, 4, 5, 6, 7)),
                       kib, 0xfffe, rand.randint(0, 40))
    if kib == 0x80000000 or rand.random() < 0.5:
        body += struct.pack("<Q", rand.choice((1 << 40, 1 << 43, 0)))
    return use == 5, structure(16, handle, body, [])


def others(rand, handles, arrays, devices):
    """Types 0, 1, 2, 4, 19, 20, 37: some of them missing, one age or another."""
    out = []
    if rand.random() < 0.8:
        body = struct.pack("<BBHBBQ", 1, 2, 0xe000, 3, 0xff, 8) + bytes(rand.choice((0, 2, 6)))
        out.append(structure(0, next(handles), body, [b"Firm", b"1.%d" % rand.randint(0, 9), b"01/02/2020"]))
    if rand.random() < 0.8:
        body = struct.pack("<BBBB", 1, 2, 3, 4) + rand.randbytes(16) + b"\x06"
        out.append(structure(1, next(handles), body, [b"Maker", b"Station %d" % rand.randint(1, 3), b"v1", b"S7"]))
    if rand.random() < 0.8:
        body = struct.pack("<BBBBBBBHBB", 1, 2, 3, 4, 0, 9, 0, 0, 10, 0)
        out.append(structure(2, next(handles), body, [b"Maker", b"Board", b"r2", b"S8"]))
    for number in range(rand.randint(0, 4)):
        body = bytearray(rand.choice((0x20, 0x23, 0x28, 0x2a, 0x30)) - 4)
        body[0], body[1] = 1, rand.choice((3, 3, 3, 3, 1, 2, 4, 5, 6))
        body[0x14] = rand.choice((0x41, 0x41, 0x00, 0x44))
        out.append(structure(4, next(handles), body, [b"CPU%d" % (number + 1)]))
    for _ in range(rand.randint(0, 2)):
        first = rand.choice((0, 0x400000, 0xffffffff))
        last = 0xffffffff if first == 0xffffffff else first + rand.choice((0x3fffff, 0x1ffffff))
        body = struct.pack("<IIHB", first, last, rand.choice(arrays or [0x99]), 1)
        if first == 0xffffffff or rand.random() < 0.5:
            body += struct.pack("<QQ", 1 << 42, (1 << 42) + (1 << 36) - 1)
        out.append(structure(19, next(handles), body, []))
        body = struct.pack("<IIHHBBB", 0, 0x3fffff, rand.choice(devices or [0x98]), 0x97, 0xff, 0xff, 0xff)
        out.append(structure(20, next(handles), body, []))
    if rand.random() < 0.3:
        body = struct.pack("<BBBBHBH", 3, 2, 1, 2, rand.choice(devices or [0x98]), 3, 0x98)
        out.append(structure(37, next(handles), body, []))
    if rand.random() < 0.3:
        out.append(structure(rand.randint(128, 255), next(handles), rand.randbytes(rand.randint(0, 60)),
                             [b"Locator: Z9", b"OEM"]))
    return out


def entry_point(rand, table, n, at, room):
    """A 32- or 64-bit entry point for the table at that address."""
    if rand.random() < 0.5:
        entry = bytearray(struct.pack("<5sBBBBBBBIQ", b"_SM3_", 0, 0x18, 3, rand.randint(0, 9), 0, 1, 0,
                                      len(table) + room, at))
        entry[5] = -sum(entry) & 0xff
        return bytes(entry)
    entry = bytearray(struct.pack("<4sBBBBHB5s5sBHIHB", b"_SM_", 0, 0x1f, 2, rand.randint(3, 8), 0x400, 0,
                                  bytes(5), b"_DMI_", 0, len(table), at, n, 0x28))
    entry[0x15] = -sum(entry[0x10:0x1f]) & 0xff
    entry[4] = -sum(entry) & 0xff
    return bytes(entry)


class Dump:
    """dump: one file, table at 20h. entry, table: the kernel's two files."""

    def __init__(self, rand):
        handles = iter(rand.sample(range(0xff00), 200))
        self.ascii_only = rand.random() < 0.6
        self.flash, arrays, parts = set(), [], []
        for _ in range(rand.choice((0, 1, 1, 1, 2, 4))):
            handle = next(handles)
            is_flash, data = array(rand, handle)
            arrays.append(handle)
            parts.append(data)
            if is_flash:
                self.flash.add(handle)
        devices = [Device(rand, next(handles), arrays, self.ascii_only)
                   for _ in range(rand.choice((0, 1, 2, 4, 6, 8, 12, 16, 24)))]
        parts += others(rand, handles, arrays, [d.handle for d in devices])
        parts += [d.bytes for d in devices]
        rand.shuffle(parts)
        order = {part: i for i, part in enumerate(parts)}
        self.devices = sorted(devices, key=lambda d: order[d.bytes])
        self.table = b"".join(parts) + structure(127, next(handles), b"", [])
        seed, junk = rand.random(), rand.choice((b"", b"", b"junk after the end\0\0"))
        self.dump = self.entry = b""
        for at in (0x20, 0x7a00_0000):
            rand.seed(seed)
            entry = entry_point(rand, self.table, len(parts) + 1, at, len(junk))
            if at == 0x20:
                self.dump = entry.ljust(0x20, b"\0") + self.table + junk
            self.entry = entry
