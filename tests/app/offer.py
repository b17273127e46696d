#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""offer.py REPORT: a window beside the program, as a mail or a file manager would be: the report is on
its clipboard as text, and the file can be dragged out of it."""
import sys

import gi

gi.require_version("Gdk", "4.0")
gi.require_version("Gtk", "4.0")
from gi.repository import Gdk, Gio, GLib, GObject, Gtk


def show(app):
    window = Gtk.ApplicationWindow(application=app, title="offer", default_width=160,
                                   default_height=90, decorated=False)
    window.set_child(Gtk.Label(label="a report"))
    source = Gtk.DragSource()
    files = GObject.Value(Gdk.FileList, Gdk.FileList.new_from_list(
        [Gio.File.new_for_path(sys.argv[1])]))
    source.set_content(Gdk.ContentProvider.new_for_value(files))
    window.add_controller(source)
    window.present()
    with open(sys.argv[1], encoding="utf-8") as file:
        window.get_clipboard().set(file.read())


app = Gtk.Application(application_id="org.lidleaf.Offer", flags=Gio.ApplicationFlags.NON_UNIQUE)
app.connect("activate", show)
GLib.idle_add(lambda: None)
app.run([])
