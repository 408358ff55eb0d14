"""Who made the examiners' golfers up: a lesson by seed, number, noise and count of swings."""
from examiners.eighth import lesson as eighth
from examiners.eleventh import lesson as eleventh
from examiners.fourteenth import lesson as fourteenth
from examiners.ninth import lesson as ninth
from examiners.seventh import lesson as seventh
from examiners.sixth import lesson as sixth
from examiners.tenth import lesson as tenth
from examiners.thirteenth import lesson as thirteenth
from examiners.twelfth import lesson as twelfth

EXAMINERS = {
    "sixth": sixth.make_lesson,
    "seventh": seventh.make_lesson,
    "eighth": eighth.make_lesson,
    "ninth": ninth.make_lesson,
    "tenth": tenth.make_lesson,
    "eleventh": eleventh.make_lesson,
    "twelfth": twelfth.make_lesson,
    "thirteenth": thirteenth.make_lesson,
    "fourteenth": fourteenth.make_lesson,
}
