#!/usr/bin/env python3
"""Tells whether folders are valid bags, by the text of RFC 8493 alone.

    check.py BAG...         one line a bag: "valid" or "invalid: why; why"

It was written from the RFC beside the Go code and shares nothing with it, so
that the two can be held against each other. It knows BagIt 1.0, and 0.93 to
0.97 as far as the RFC says what those allowed. Only what the RFC words as MUST
counts; what should not be so is left to the other.
"""
import codecs
import hashlib
import os
import re
import sys
import unicodedata

HASHES = {"md5": 32, "sha1": 40, "sha256": 64, "sha512": 128, "sha224": 56, "sha384": 96}
OLD = ("0.93", "0.94", "0.95", "0.96", "0.97")


class Bag:
    def __init__(self, base):
        self.base = os.fsencode(base)
        self.wrong = []
        self.encoding = "utf-8"
        self.old = False
        self.files = set()
        self.folders = set()

    def no(self, section, why):
        self.wrong.append("%s %s" % (section, why))

    # 2: what is there
    def walk(self):
        for folder, dirs, files in os.walk(self.base):
            here = os.path.relpath(folder, self.base)
            for d in list(dirs):
                if os.path.islink(os.path.join(folder, d)):
                    dirs.remove(d)
                    self.no("5.1", "a link to a folder")
                else:
                    self.folders.add(os.fsdecode(os.path.normpath(os.path.join(here, d))))
            for f in files:
                full = os.path.join(folder, f)
                name = os.fsdecode(os.path.normpath(os.path.join(here, f)))
                real = os.path.realpath(full)
                inside = real.startswith(os.path.realpath(self.base) + os.fsencode(os.sep))
                if not os.path.isfile(full) or not inside:
                    self.no("5.1", "not a file of the bag: %r" % name)
                    continue
                self.files.add(name)

    def raw(self, name):
        with open(os.path.join(self.base, os.fsencode(name)), "rb") as f:
            return f.read()

    def lines(self, name, encoding):
        data = self.raw(name)
        utf8 = encoding.lower().replace("_", "-") in ("utf-8", "utf8")
        if utf8 and data.startswith(codecs.BOM_UTF8):
            self.no("2.3", "a byte order mark in " + name)
            data = data[3:]
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            self.no("2.3", "%s is not in %s" % (name, encoding))
            return []
        text = text.lstrip("\ufeff") if not utf8 else text
        parts = re.split("\r\n|\r|\n", text)
        if parts and parts[-1] == "":
            parts.pop()
        return parts

    # 2.1.1
    def declaration(self):
        if "bagit.txt" not in self.files:
            return self.no("2.1.1", "no bagit.txt")
        lines = self.lines("bagit.txt", "utf-8")
        loose = re.match(r"\s*BagIt-Version\s*:\s*(\S+)\s*$", lines[0] if lines else "", re.I)
        if not loose:
            return self.no("2.1.1", "no version")
        version = loose.group(1)
        self.old = version in OLD
        if version != "1.0" and not self.old:
            self.no("2.1.1", "unknown version")
        strict = not self.old
        if strict and not re.fullmatch(r"BagIt-Version: \d+\.\d+", lines[0], re.I):
            self.no("2.1.1", "version line")
        if strict and len(lines) != 2:
            self.no("2.1.1", "not two lines")
        second = lines[1] if len(lines) > 1 else ""
        m = re.match(r"\s*Tag-File-Character-Encoding\s*:\s*(\S+)\s*$", second, re.I)
        if not m:
            if strict or len(lines) > 1:
                self.no("2.1.1", "no encoding")
            return
        if strict and not re.fullmatch(r"Tag-File-Character-Encoding: \S+", second, re.I):
            self.no("2.1.1", "encoding line")
        try:
            codecs.lookup(m.group(1))
            self.encoding = m.group(1)
        except LookupError:
            self.no("2.1.1", "unknown encoding")

    # 2.1.3, 5.1, 6.1.3
    def path(self, text, where):
        if re.search("%(?!25|0[AaDd])", text) and not self.old:
            self.no("2.1.3", "a bare percent sign in " + where)
        decoded = re.sub("%(25|0[AaDd])", lambda m: chr(int(m.group(1), 16)), text)
        if self.old and os.path.normpath(text) in self.files:
            decoded = text
        if decoded[:1] in ("/", "\\", "~") or re.match("[A-Za-z]:", decoded) or ".." in re.split(r"[/\\]", decoded) or "\0" in decoded:
            self.no("5.1", "a path that leads out in " + where)
            return None
        normal = os.path.normpath(decoded)
        if normal == "." or decoded.endswith("/") and os.path.normpath(decoded) not in self.folders:
            self.no("2.1.3", "no path in " + where)
            return None
        return normal

    def find(self, name):
        """6.1.1.3: names that look the same are the same."""
        if name in self.files:
            return name
        same = [f for f in self.files if unicodedata.normalize("NFC", f) == unicodedata.normalize("NFC", name)]
        return same[0] if len(same) == 1 else name

    def manifest(self, name, algorithm):
        entries = {}
        for line in self.lines(name, self.encoding):
            if not line.strip(" \t"):
                if not self.old:
                    self.no("2.1.3", "an empty line in " + name)
                continue
            m = re.fullmatch(r"(\\?)([0-9A-Fa-f]+)[ \t]+(\*?)(.*[^ \t].*|[^ \t])", line, re.S)
            if not m or len(m.group(2)) % 2 or algorithm in HASHES and len(m.group(2)) != HASHES[algorithm]:
                self.no("2.1.3", "a line of %s" % name)
                continue
            text = m.group(4)
            if m.group(1):
                text = re.sub(r"\\(\\|n|r)", lambda q: {"\\": "\\", "n": "\n", "r": "\r"}[q.group(1)], text)
            where = self.path(text, name)
            if where is None:
                continue
            if where in self.folders or where == "data":
                self.no("2.1.3", "a folder in " + name)
                continue
            where = self.find(where)
            digest = m.group(2).lower()
            if where in entries and (not self.old or entries[where] != digest):
                self.no("2.1.3", "twice in " + name)
            entries.setdefault(where, digest)
        return entries

    def manifests(self):
        self.payload, tags = {}, {}
        for name in sorted(self.files):
            m = re.fullmatch(r"(tag)?manifest-(.+)\.txt", name, re.I)
            if not m or "/" in name:
                continue
            algorithm = re.sub("[^a-z0-9]", "", m.group(2).lower())
            if algorithm != m.group(2) or not re.match("(tag)?manifest-", name) or not name.endswith(".txt"):
                self.no("2.4", "the name " + name)
            (tags if m.group(1) else self.payload)[name] = (algorithm, self.manifest(name, algorithm))
        if not self.payload:
            self.no("2.1.3", "no payload manifest")
        for group, inside in ((self.payload, True), (tags, False)):
            if group and not any(a in HASHES for a, _ in group.values()):
                self.no("2.4", "no algorithm that is known")
            for name, (algorithm, entries) in group.items():
                for where in list(entries):
                    if where.startswith("data/") != inside:
                        self.no("2.1.3" if inside else "2.2.1", "%s does not belong into %s" % (where, name))
                        del entries[where]
                    elif re.fullmatch(r"tagmanifest-.+\.txt", where):
                        self.no("2.2.1", "a tag manifest in " + name)
                        del entries[where]
        for name, (_, entries) in tags.items():
            for p in self.payload:
                if p not in entries:
                    self.no("2.2.1", "%s is not in %s" % (p, name))
        return list(self.payload.values()) + list(tags.values())

    # 3
    def contents(self, lists):
        held = {f for f in self.files if f.startswith("data/")}
        if "data" not in self.folders:
            self.no("2.1.2", "no data")
        seen = [set(e) for _, e in self.payload.values()]
        for f in held:
            if self.old and not any(f in s for s in seen) or not self.old and not all(f in s for s in seen):
                self.no("3", "not listed: %r" % f)
        for algorithm, entries in lists:
            for f, digest in entries.items():
                if f not in self.files:
                    self.no("3", "missing: %r" % f)
                elif algorithm in HASHES and hashlib.new(algorithm, self.raw(f)).hexdigest() != digest:
                    self.no("3", "changed: %r" % f)
        return held

    # 2.2.2
    def info(self, held):
        if "bag-info.txt" not in self.files:
            return
        elements = []
        for line in self.lines("bag-info.txt", self.encoding):
            if line[:1] in ("", " ", "\t"):
                if not line.strip() or not elements:
                    self.no("2.2.2", "a line that goes on with nothing")
                else:
                    elements[-1][1] += " " + line.strip()
                continue
            label, colon, value = line.partition(":")
            if not colon or not label.strip():
                self.no("2.2.2", "a line without a label")
                continue
            if not self.old and (label != label.strip() or value[:1] not in (" ", "\t")):
                self.no("2.2.2", "blanks about a colon")
            elements.append([label.strip().lower(), value.strip()])
        oxum = [v for k, v in elements if k == "payload-oxum"]
        if len(oxum) > 1:
            self.no("2.2.2", "Payload-Oxum twice")
        for value in oxum:
            size = sum(len(self.raw(f)) for f in held)
            if not re.fullmatch(r"\d+\.\d+", value) or [int(n) for n in value.split(".")] != [size, len(held)]:
                self.no("2.2.2", "Payload-Oxum")

    # 2.2.3
    def fetch(self):
        if "fetch.txt" not in self.files:
            return
        for line in self.lines("fetch.txt", self.encoding):
            m = re.fullmatch(r"([^ \t]+)[ \t]+([^ \t]+)[ \t]+(.+)", line)
            if not m:
                self.no("2.2.3", "a line of fetch.txt")
                continue
            if not re.match(r"[A-Za-z][A-Za-z0-9+.-]*:.", m.group(1)) or not re.fullmatch(r"\d+|-", m.group(2)):
                self.no("2.2.3", "an address or a length")
            where = self.path(m.group(3), "fetch.txt")
            if where and (not where.startswith("data/") or not all(where in e for _, e in self.payload.values())):
                self.no("2.2.3", "%s is not in every manifest" % where)

    def check(self):
        self.walk()
        self.declaration()
        lists = self.manifests()
        held = self.contents(lists)
        self.info(held)
        self.fetch()
        return self.wrong


for base in sys.argv[1:]:
    wrong = Bag(base).check()
    print("valid" if not wrong else ascii("invalid: " + "; ".join(wrong))[1:-1])
