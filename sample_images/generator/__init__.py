"""Renders the sample photographs and writes down what is true about them.

Not part of the installed package: it needs Mitsuba 3 (``pip install mitsuba``),
which the project does not depend on. See ``sample_images/README.md``.

Coordinates of the scene: millimetres, right-handed, the board is z = 0, x to the
right and y up as seen by a camera above it, z towards the camera. Pixels: (0, 0)
is the centre of the top-left pixel of the photo as displayed, x right, y down.
"""
