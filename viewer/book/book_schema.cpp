#include "viewer/book/book_schema.h"

namespace footing {

namespace {

constexpr const char* version_1 = R"sql(
CREATE TABLE student(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK(name <> ''),
  name_key TEXT NOT NULL,
  hand TEXT NOT NULL CHECK(hand IN ('right', 'left')),
  weight_kg REAL CHECK(weight_kg BETWEEN 10 AND 400),
  unit TEXT NOT NULL CHECK(unit IN ('yd', 'm')),
  consent TEXT NOT NULL CHECK(consent IN ('unknown', 'yes', 'no')),
  consent_date TEXT,
  notes TEXT NOT NULL
) STRICT;
CREATE INDEX student_by_name ON student(name_key);

CREATE TABLE wedge(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
  name TEXT NOT NULL CHECK(name <> ''),
  name_key TEXT NOT NULL,
  loft_deg REAL CHECK(loft_deg BETWEEN 1 AND 89),
  bag TEXT NOT NULL CHECK(bag IN ('in', 'out')),
  UNIQUE(student_id, name_key)
) STRICT;

CREATE TABLE recording(
  uuid TEXT PRIMARY KEY,
  file TEXT NOT NULL,
  start_utc_ns INTEGER NOT NULL,
  zone TEXT NOT NULL,
  duration_s REAL NOT NULL,
  hand TEXT NOT NULL CHECK(hand IN ('right', 'left')),
  outcome TEXT NOT NULL
) STRICT;

CREATE TABLE lesson(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
  date TEXT NOT NULL CHECK(date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  recording_uuid TEXT UNIQUE,
  setup TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX lesson_by_student ON lesson(student_id, date);

CREATE TABLE lesson_band(
  lesson_id INTEGER NOT NULL REFERENCES lesson(id) ON DELETE CASCADE,
  length TEXT NOT NULL CHECK(length IN ('half', 'three-quarter', 'full')),
  low REAL NOT NULL CHECK(low >= 0),
  high REAL NOT NULL CHECK(high > low AND high <= 1),
  PRIMARY KEY(lesson_id, length)
) STRICT;

CREATE TABLE swing(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  lesson_id INTEGER NOT NULL REFERENCES lesson(id) ON DELETE CASCADE,
  number INTEGER NOT NULL,
  origin TEXT NOT NULL CHECK(origin IN ('recording', 'typed')),
  found_kind TEXT NOT NULL CHECK(found_kind IN ('shot', 'practice', 'unknown')),
  from_s REAL,
  to_s REAL,
  strike_s REAL,
  address_share REAL,
  address_u REAL,
  lowest_share REAL,
  lowest_u REAL,
  impact_share REAL,
  impact_u REAL,
  backswing_s REAL,
  downswing_s REAL,
  below_floor_s REAL,
  rhythm_percent REAL,
  wedge_id INTEGER REFERENCES wedge(id) ON DELETE RESTRICT,
  length TEXT CHECK(length IN ('half', 'three-quarter', 'full')),
  coach_kind TEXT CHECK(coach_kind IN ('shot', 'practice')),
  coach_says TEXT NOT NULL DEFAULT 'nothing' CHECK(coach_says IN ('nothing', 'keep', 'set_aside')),
  reason TEXT NOT NULL DEFAULT '',
  note TEXT NOT NULL DEFAULT '',
  UNIQUE(lesson_id, number)
) STRICT;
CREATE INDEX swing_by_wedge ON swing(wedge_id);

CREATE TABLE shot(
  swing_id INTEGER PRIMARY KEY REFERENCES swing(id) ON DELETE CASCADE,
  carry_m REAL CHECK(carry_m >= 0 AND carry_m <= 500),
  side_m REAL CHECK(side_m BETWEEN -500 AND 500),
  strike TEXT CHECK(strike IN ('ball_first', 'ground_first', 'thin')),
  CHECK(carry_m IS NOT NULL OR strike IS NOT NULL)
) STRICT;
)sql";

constexpr const char* version_2 = R"sql(
CREATE TABLE csv_shape(
  header TEXT PRIMARY KEY,
  carry_column TEXT NOT NULL,
  club_column TEXT NOT NULL,
  date_column TEXT NOT NULL,
  side_column TEXT NOT NULL,
  carry_unit TEXT NOT NULL CHECK(carry_unit IN ('yd', 'm', 'ft')),
  side_unit TEXT NOT NULL CHECK(side_unit IN ('yd', 'm', 'ft')),
  date_order TEXT NOT NULL CHECK(date_order IN ('ymd', 'dmy', 'mdy'))
) STRICT;

CREATE TABLE csv_club(
  student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
  club_key TEXT NOT NULL,
  wedge_id INTEGER NOT NULL REFERENCES wedge(id) ON DELETE CASCADE,
  length TEXT CHECK(length IN ('half', 'three-quarter', 'full')),
  PRIMARY KEY(student_id, club_key)
) STRICT;

CREATE TABLE imported_row(
  student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
  row TEXT NOT NULL,
  copy INTEGER NOT NULL,
  swing_id INTEGER NOT NULL REFERENCES swing(id) ON DELETE CASCADE,
  PRIMARY KEY(student_id, row, copy)
) STRICT;
CREATE INDEX imported_row_by_swing ON imported_row(swing_id);
)sql";

constexpr const char* version_3 = R"sql(
ALTER TABLE csv_club DROP COLUMN length;

ALTER TABLE lesson ADD COLUMN hand TEXT CHECK(hand IN ('right', 'left'));

CREATE TABLE imported_line(
  student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
  line TEXT NOT NULL,
  copy INTEGER NOT NULL,
  swing_id INTEGER NOT NULL REFERENCES swing(id) ON DELETE CASCADE,
  carry_m REAL,
  side_m REAL,
  PRIMARY KEY(student_id, line, copy, swing_id)
) STRICT;
CREATE INDEX imported_line_by_swing ON imported_line(swing_id);
INSERT INTO imported_line(student_id, line, copy, swing_id, carry_m, side_m)
  SELECT r.student_id, r.row, r.copy, r.swing_id, h.carry_m, h.side_m
  FROM imported_row r LEFT JOIN shot h ON h.swing_id = r.swing_id;
DROP TABLE imported_row;
)sql";

constexpr const char* version_4 = R"sql(
CREATE TABLE change_log(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  made_at TEXT NOT NULL,
  changes BLOB NOT NULL
) STRICT;
)sql";

constexpr const char* version_5 = R"sql(
ALTER TABLE swing ADD COLUMN came_to_rest TEXT CHECK(came_to_rest IN ('yes', 'no'));
ALTER TABLE swing ADD COLUMN finish_share REAL;
ALTER TABLE swing ADD COLUMN finish_u REAL;
ALTER TABLE swing ADD COLUMN finish_held_s REAL;
ALTER TABLE swing ADD COLUMN finish_held_end TEXT CHECK(finish_held_end IN ('left', 'not_seen'));
ALTER TABLE swing ADD COLUMN finish_sway_m REAL;
)sql";

// What the plates called themselves: so that a lesson on the simulated golfer can be told from a student's.
constexpr const char* version_6 = R"sql(
ALTER TABLE recording ADD COLUMN device TEXT NOT NULL DEFAULT '';
)sql";

}  // namespace

const std::vector<std::string>& book_schema_steps() {
    static const std::vector<std::string> steps{version_1, version_2, version_3,
                                                version_4, version_5, version_6};
    return steps;
}

}  // namespace footing
