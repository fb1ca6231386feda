"""BLAKE3 in plain Python, for where the `blake3` module is not installed.

After the BLAKE3 paper (O'Connor, Aumasson, Neves, Wilcox-O'Hearn 2020, section 2). Many chunks are worked out at once:
word i of all of them stands in one long integer, 64 bits for each, so that a sum of 32-bit words never reaches the next.
"""
from array import array
import sys

IV = (0x6A09E667, 0xBB67AE85, 0x3C6EF372, 0xA54FF53A, 0x510E527F, 0x9B05688C, 0x1F83D9AB, 0x5BE0CD19)
ORDER = (2, 6, 3, 10, 7, 0, 4, 13, 1, 11, 12, 5, 9, 14, 15, 8)
COLUMNS = ((0, 4, 8, 12), (1, 5, 9, 13), (2, 6, 10, 14), (3, 7, 11, 15),
           (0, 5, 10, 15), (1, 6, 11, 12), (2, 7, 8, 13), (3, 4, 9, 14))
START, END, PARENT, ROOT = 1, 2, 4, 8
AT_ONCE = 1024


def packed(words):
    return int.from_bytes(array("Q", words).tobytes(), sys.byteorder)


def unpacked(x, n):
    out = array("Q")
    out.frombytes(x.to_bytes(8 * n, sys.byteorder))
    return out


def compress(cv, m, counter, length, flags, ones):
    """The compression function: chaining values, 16 words, counters (long integers of n words each)."""
    low = ones * 0xFFFFFFFF
    v = list(cv) + [w * ones for w in IV[:4]] + [counter & low, (counter >> 32) & low, length * ones, flags * ones]
    m = list(m)
    for r in range(7):
        for i, (a, b, c, d) in enumerate(COLUMNS):
            for x, left, right in ((m[2 * i], 16, 12), (m[2 * i + 1], 8, 7)):
                v[a] = (v[a] + v[b] + x) & low
                t = v[d] ^ v[a]
                v[d] = (t >> left | t << (32 - left)) & low
                v[c] = (v[c] + v[d]) & low
                t = v[b] ^ v[c]
                v[b] = (t >> right | t << (32 - right)) & low
        m = [m[k] for k in ORDER]
    return [v[i] ^ v[i + 8] for i in range(8)]


def of_chunks(data, n, first):
    """Chaining values of n whole chunks, as 8 long integers."""
    words = memoryview(data).cast("I")
    ones = packed([1] * n)
    counter, cv = packed(range(first, first + n)), [w * ones for w in IV]
    for b in range(16):
        m = [packed(words[16 * b + j::256].tolist()) for j in range(16)]
        cv = compress(cv, m, counter, 64, (START if b == 0 else 0) | (END if b == 15 else 0), ones)
    return cv


def last_chunk(data, counter, root):
    blocks = [data[i:i + 64] for i in range(0, len(data), 64)] or [b""]
    cv = list(IV)
    for i, block in enumerate(blocks):
        m = array("I", block.ljust(64, b"\0"))
        final = i == len(blocks) - 1
        cv = compress(cv, m, counter, len(block), (START if i == 0 else 0) | ((END | root) if final else 0), 1)
    return cv


class blake3:
    """As the class of the module `blake3`: update and hexdigest, digest."""

    def __init__(self, data=b""):
        self.rest, self.values, self.count = bytearray(), [array("Q") for _ in range(8)], 0
        self.update(data)

    def update(self, data):
        self.rest += data
        # The last chunk is kept back: whether it is the root is not known before the end.
        while len(self.rest) > 1024 * AT_ONCE:
            self.take(AT_ONCE)
        return self

    def take(self, n):
        for kept, new in zip(self.values, of_chunks(bytes(self.rest[:1024 * n]), n, self.count)):
            kept.extend(unpacked(new, n))
        del self.rest[:1024 * n]
        self.count += n

    def digest(self):
        whole = max(len(self.rest) - 1, 0) // 1024
        if whole:
            self.take(whole)
        cv = last_chunk(bytes(self.rest), self.count, 0 if self.count else ROOT)
        values = [array("Q", kept) for kept in self.values]
        for kept, word in zip(values, cv):
            kept.append(word)
        n = len(values[0])
        while n > 1:  # pairs of each level; one that is left over goes up as it is
            pairs, root = n // 2, ROOT if n == 2 else 0
            ones = packed([1] * pairs)
            m = [packed(v[0:2 * pairs:2]) for v in values] + [packed(v[1:2 * pairs:2]) for v in values]
            made = compress([w * ones for w in IV], m, 0, 64, PARENT | root, ones)
            values = [unpacked(x, pairs) + v[2 * pairs:] for x, v in zip(made, values)]
            n = len(values[0])
        return b"".join(int(v[0]).to_bytes(4, "little") for v in values)

    def hexdigest(self):
        return self.digest().hex()
