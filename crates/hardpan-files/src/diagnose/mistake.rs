//! All wording of what can be wrong in a file. Codes are permanent: E1 the
//! file, E2 its form, E3 a value, E4 values that do not go together, E5 a
//! table of rows, E6 a weather report. A withdrawn code is never used again.

use crate::diagnose::catalogue::mistakes;

mistakes! {
    /// The file cannot be opened.
    Unreadable { path: String, reason: String } = "E101" Error,
        says "`{path}` cannot be read: {reason}",
        wants "the path of a file",
        fix "check the path; it counts from the folder of the file that names it";
    /// The file holds more bytes than are read.
    TooLarge { path: String, size: String, limit: String } = "E102" Error,
        says "`{path}` is too large: {size}, at most {limit} are read",
        wants "a file of at most {limit}",
        fix "check that it is the right file; thin out a survey that is denser than one point in 0.1 m";
    /// The file is not text in UTF-8.
    NotUtf8 { byte: String } = "E103" Error,
        says "the file is not text in UTF-8: byte {byte} cannot stand here",
        wants "text in UTF-8",
        fix "save it again as UTF-8 (in a spreadsheet: CSV UTF-8)";
    /// The file has no content.
    EmptyFile { content: String } = "E104" Error,
        says "the file is empty",
        wants "{content}",
        fix "start from the template of this kind of file";
    /// Tables or keys are nested more deeply than the format ever needs.
    TooDeep { limit: usize } = "E105" Error,
        says "brackets or dotted keys are nested more than {limit} deep",
        wants "at most {limit} levels",
        fix "check for a bracket that is never closed";
    /// A line is longer than any row can be.
    LineTooLong { length: usize, limit: usize } = "E106" Error,
        says "a line has {length} bytes; at most {limit} are read",
        wants "one row or key a line, at most {limit} bytes",
        fix "check that the line ends are kept and that it is the right file";
    /// The file is none of the kinds that are read here.
    UnknownFile { kinds: String } = "E107" Error,
        says "the kind of file cannot be told",
        wants "a first key `kind`, the columns of a survey or of soundings, or a weather report",
        fix "write `kind = \"...\"` first, with one of {kinds}";
    /// More mistakes than are listed.
    TooMany { count: usize, limit: usize } = "E108" Error,
        says "{count} more mistakes are not listed; the first {limit} of this file are",
        wants "fewer mistakes",
        fix "put the listed ones right and read it again";

    /// The text breaks the rules of TOML.
    Syntax { what: String } = "E201" Error,
        says "this is not TOML: {what}",
        wants "`key = value`, `[table]` or `[[list]]`",
        fix "text stands in quotes, one `key = value` on a line";
    /// A key or table stands twice.
    DuplicateKey { key: String } = "E202" Error,
        says "`{key}` stands twice",
        wants "each key once; a table of a list in double brackets",
        fix "remove one of them; entries of a list are written `[[...]]`";
    /// The key `kind` is missing.
    KindMissing { wanted: String } = "E203" Error,
        says "the file does not say what it describes",
        wants "`kind = \"{wanted}\"` as the first key",
        fix "write `kind = \"{wanted}\"` on the first line, before any table";
    /// The key `kind` is not the first.
    KindNotFirst {} = "E204" Warning,
        says "`kind` is not the first key",
        wants "`kind` before all other keys",
        fix "move it to the first line";
    /// The file describes something else.
    KindWrong { read: String, wanted: String } = "E205" Error,
        says "this file describes a {read}, not a {wanted}",
        wants "`kind = \"{wanted}\"`",
        fix "name a file of kind `{wanted}` here";
    /// No key of the format is written so.
    UnknownKey { key: String, place: String, advice: String } = "E206" Error,
        says "`{key}` is no key of {place}",
        wants "a key of {place}",
        fix "{advice}";
    /// The value is of the wrong kind.
    WrongType { key: String, is: String, wanted: String, example: String } = "E207" Error,
        says "`{key}` is {is}",
        wants "{wanted}",
        fix "write {example}";
    /// An entry of a list lacks what makes it an entry.
    EntryWithout { list: String, key: String, example: String } = "E208" Error,
        says "this entry of `{list}` has no `{key}`",
        wants "`{key}` in every entry of `{list}`",
        fix "add `{key} = {example}`, or remove the entry";

    /// A number stands alone where a unit is possible.
    NoUnit { key: String, kind: String, units: String, advice: String } = "E301" Error,
        says "`{key}` has no unit",
        wants "{kind} with its unit: {units}",
        fix "{advice}";
    /// The unit measures something else.
    WrongUnit { key: String, unit: String, is: String, kind: String, units: String } = "E302" Error,
        says "`{key}` is given in `{unit}`, a unit of {is}",
        wants "{kind} in {units}",
        fix "write {kind} with one of these units: {units}";
    /// No unit is written so.
    UnknownUnit { key: String, unit: String, kind: String, units: String, advice: String }
        = "E303" Error,
        says "`{key}` is given in `{unit}`, which is no unit known here",
        wants "{kind} in {units}",
        fix "{advice}";
    /// The text does not start with a number.
    NotANumber { key: String, wanted: String, example: String } = "E304" Error,
        says "`{key}` does not start with a number",
        wants "{wanted}",
        fix "write {example}, or leave the key out while it is not known";
    /// The number is infinite or not a number.
    NotFinite { key: String } = "E305" Error,
        says "`{key}` is not a finite number",
        wants "a finite number",
        fix "leave the key out while the value is not known; the checks that need it are then unproven";
    /// The value cannot be right.
    OutOfRange { key: String, value: String, low: String, high: String } = "E306" Error,
        says "`{key}` is {value}, which cannot be right",
        wants "{low} to {high}",
        fix "check the number and its unit";
    /// No word of the format is written so.
    UnknownWord { key: String, word: String, words: String, advice: String } = "E307" Error,
        says "`{key}` is `{word}`, a word not known here",
        wants "one of {words}",
        fix "{advice}";
    /// The value is no date.
    NotADate { key: String } = "E308" Error,
        says "`{key}` is not a date",
        wants "a date as year-month-day",
        fix "write 2026-05-01";
    /// The value is no time in UTC.
    NotATime { key: String } = "E309" Error,
        says "`{key}` is not a time in UTC",
        wants "a time in UTC, with a Z",
        fix "write \"14:30Z\", or \"2026-05-01T14:30Z\" where the UTC day differs from the local day";
    /// The number is split by a blank or holds a comma.
    SplitNumber { key: String, read: String } = "E310" Error,
        says "`{key}` has a blank or comma inside its number",
        wants "digits without blanks or commas, and a point before decimals",
        fix "write it like \"1980 m\" or \"1.8 %\" instead of `{read}`";
    /// A plain number carries a unit or quotes.
    UnwantedUnit { key: String, example: String } = "E311" Error,
        says "`{key}` is a plain number without unit or quotes",
        wants "a plain number",
        fix "write {example}";
    /// The runway designator is not of the usual form.
    BadDesignator { key: String } = "E312" Error,
        says "`{key}` is no runway designator",
        wants "two digits from 01 to 36, then L, C or R if needed",
        fix "write it like \"07\" or \"25L\"";

    /// Two values that must rise do not.
    OutOfOrder { lower: String, low: String, upper: String, high: String } = "E401" Error,
        says "`{lower}` is {low}, above `{upper}` at {high}",
        wants "`{lower}` no greater than `{upper}`",
        fix "check both values; they may be exchanged";
    /// Rows of a chart of two figures do not rise.
    ChartNotRising { list: String, what: String, before: String, after: String } = "E402" Error,
        says "`{list}` goes from {before} to {after}: {what}",
        wants "a first figure that rises from row to row, and a second that never falls",
        fix "put the rows in rising order and check them against the chart";
    /// Two entries of a list have one name.
    DuplicateName { list: String, name: String } = "E403" Error,
        says "two entries of `{list}` are named `{name}`",
        wants "a name of its own for each entry of `{list}`",
        fix "rename or remove one of them";
    /// A flap setting is named that the aeroplane does not have.
    UnknownFlap { flap: String, known: String, advice: String } = "E404" Error,
        says "the aeroplane has no flap setting `{flap}`",
        wants "one of {known}",
        fix "{advice}";
    /// The flight names an end that the strip does not have.
    UnknownEnd { read: String, ends: String } = "E405" Error,
        says "the strip has no end `{read}`",
        wants "{ends}",
        fix "write the designator of the strip's end as in the strip file, or up or down the stations";
    /// A place lies beyond the ends of the strip.
    BeyondStrip { what: String, length: String, reach: String } = "E406" Error,
        says "the strip is {length} but {what} goes to {reach}",
        wants "stations from 0 to {length}",
        fix "check the length of the strip, the unit of the stations and the threshold from which they count";
    /// A declared distance does not go with the length of the strip.
    DeclaredTooLong { key: String, declared: String, length: String } = "E407" Warning,
        says "`{key}` is {declared} on a strip of {length}",
        wants "a declared distance that the ground can hold",
        fix "check it, and state the stopway or clearway behind it as its source";
    /// A designator points against the bearing of the strip.
    DesignatorOpposed { key: String, designator: String, bearing: String } = "E408" Error,
        says "`{key}` is `{designator}`, but moving from that end goes towards {bearing}",
        wants "the designator of the direction of movement from that end",
        fix "exchange the two ends, or turn the bearing: it looks up the stations from the low end";
    /// The two designators do not face each other.
    DesignatorsApart { low: String, high: String } = "E409" Warning,
        says "the designators `{low}` and `{high}` are not opposite",
        wants "designators that differ by 18",
        fix "check both designators";
    /// A limit has both sides or none.
    BothBounds {} = "E410" Error,
        says "this limit has both `at_most` and `at_least`",
        wants "one of `at_most` and `at_least`",
        fix "write two entries of `limit`, one for each side";
    /// A limit is nearly named like one that is checked.
    NearlyChecked { quantity: String, nearest: String } = "E411" Warning,
        says "`{quantity}` is not checked by itself; it is only printed for the crew to hold",
        wants "`{nearest}`, if that is what is meant",
        fix "write quantity = \"{nearest}\" to have it checked";
    /// A checked limit is given in a unit of the wrong kind.
    LimitKind { quantity: String, is: String, wanted: String } = "E412" Error,
        says "a limit of {quantity} is {wanted}, not {is}",
        wants "{wanted}",
        fix "give the limit in a unit of the right kind";
    /// A limit is given on the side that makes no sense.
    LimitSide { quantity: String, side: String } = "E413" Error,
        says "a limit of {quantity} is written with `{side}`",
        wants "`{side}`",
        fix "write `{side}` in place of the other side";
    /// A value goes with another kind of engine.
    OtherEngine { key: String, kind: String } = "E414" Warning,
        says "`{key}` is not used: the engines are of kind {kind}",
        wants "a value that goes with a {kind}",
        fix "remove it, or put `engines.kind` right";
    /// The inlet would touch the ground.
    InletBelowGround { height: String, radius: String } = "E415" Error,
        says "the centre of the inlet is {height} over the ground, less than its radius of {radius}",
        wants "a height of more than {radius}",
        fix "give the height of the inlet's centre over the ground, not of its lower lip";
    /// More braked wheels than main wheels.
    TooManyBrakes { braked: u32, wheels: u32 } = "E416" Error,
        says "{braked} wheels are braked, but the main gear has {wheels}",
        wants "at most {wheels}",
        fix "check `brakes.wheels`, `gear.main.legs` and `gear.main.wheels`";
    /// A wind has a speed but no direction.
    WindDirection {} = "E417" Error,
        says "the wind has a speed but no direction",
        wants "the direction that it blows from",
        fix "add from = \"250 deg\" (true), or from = \"variable\"";
    /// A wind has no speed.
    WindSpeed {} = "E418" Error,
        says "the wind has no speed",
        wants "the mean speed of the wind",
        fix "add speed = \"9 kt\" (0 kt for calm)";
    /// A time cannot be given a day.
    Undated { what: String } = "E419" Warning,
        says "{what} cannot be dated: the file has no date",
        wants "a key `date` with the local day",
        fix "add date = 2026-05-01; until then the age of the report is unproven";
    /// A key and the weather report give the same thing.
    Overridden { key: String } = "E420" Warning,
        says "`{key}` takes the place of the value in the weather report",
        wants "one statement of it",
        fix "remove `{key}` to use the weather report";
    /// The weather report is later than the movement.
    ReportAfter { report: String, movement: String } = "E421" Warning,
        says "the weather report of {report} is later than the movement at {movement}",
        wants "a report from before the movement",
        fix "check `date`, `time_utc` and the day in the report; the local day may differ from the UTC day";
    /// A list is empty where the word `none` is wanted.
    EmptyList { key: String } = "E422" Error,
        says "`{key}` is an empty list",
        wants "\"none\", or entries of the list",
        fix "write {key} = \"none\" if it is known that there is none; leave the key out if it is not known";
    /// A value is given for a file that is not there.
    Orphan { key: String, file: String } = "E423" Warning,
        says "`{key}` is not used: no `{file}` is named",
        wants "a key `{file}` with the path of the file",
        fix "add `{file}`, or remove `{key}`";

    /// A mass differs from the sum of what it is made of.
    LoadSheet { mass: String, stated: String, sum: String, parts: String } = "E424" Error,
        says "`{mass}` is {stated}, but {parts} make {sum}",
        wants "a mass that is the sum of its parts to 50 kg, or no mass at all",
        fix "leave `{mass}` out and it is summed, or mend the part that is wrong";

    /// The values of a chart jump as if units were mixed.
    ChartUnits { line: u32, earlier: u32, times: String, units: String } = "E425" Error,
        says "from line {earlier} to line {line} the value changes {times} times, as if {units} were mixed",
        wants "one unit in each column, the one that its name ends in",
        fix "check both rows against the manual; if they are right, enter the rows between them";

    /// An obstacle has two heights.
    TwoTops {} = "E430" Error,
        says "this obstacle has both `height` and `elevation`",
        wants "one of `height` and `elevation`",
        fix "keep `height` over the reference threshold, or `elevation` over mean sea level";
    /// One side of an area is given without the other.
    HalfWidth { given: String, missing: String } = "E431" Error,
        says "this area has `{given}` but no `{missing}`",
        wants "both `offset_from` and `offset_to`, or none",
        fix "add `{missing}`, or remove `{given}` if the area goes right across the strip";
    /// Reading a file takes more memory than it may.
    ReaderMemory { path: String, limit: String } = "E432" Error,
        says "reading `{path}` takes more than the {limit} of memory that it may take",
        wants "a file that can be read in {limit}",
        fix "thin out the scan, or cut it to the strip; who runs the page may allow more (`--reader-memory`)";
    /// Reading a file takes more time than it may.
    ReaderTime { path: String, limit: String } = "E433" Error,
        says "reading `{path}` takes more than the {limit} that it may take",
        wants "a file that can be read in {limit}",
        fix "thin out the scan, or cut it to the strip; who runs the page may allow more (`--reader-time`)";
    /// Reading a file broke off.
    ReaderEnded { path: String, how: String } = "E434" Error,
        says "reading `{path}` broke off: {how}",
        wants "a file that can be read to its end",
        fix "save it anew with the program that made it, or as another kind of file";
    /// No process can be started that reads a file.
    NoReader { path: String, reason: String } = "E435" Error,
        says "`{path}` is not read, because nothing can be started to read it: {reason}",
        wants "a process of its own for each file",
        fix "who runs the page looks after its machine and starts it again; then bring the file again";
    /// A survey gives no levels.
    NoLevels { path: String, reason: String, advice: String } = "E440" Error,
        says "`{path}` gives no levels: {reason}",
        wants "a survey that covers the strip, in the frame of its thresholds",
        fix "{advice}";
    /// Something is missing that a survey is laid on.
    AxisNeeds { what: String, key: String, example: String } = "E441" Error,
        says "{what}, and `{key}` is not stated",
        wants "`{key}`, so that it can be laid on the strip",
        fix "add {key} = {example}, or give places by station and offset";
    /// A key stands beside a survey that it does not go with.
    OtherSurvey { key: String, with: String } = "E442" Warning,
        says "`{key}` is not used: it goes with {with}",
        wants "a `survey` that is {with}",
        fix "remove `{key}`, or name {with} as `survey`";
    /// The thresholds are not as far apart as the strip is long.
    AxisApart { apart: String, length: String } = "E443" Error,
        says "the thresholds are {apart} apart by their coordinates; the strip is {length} long",
        wants "coordinates that agree with `length` within 1 % and 5 m",
        fix "check the coordinates of both ends, their units and `length`";
    /// The thresholds do not lie in the bearing of the strip.
    BearingApart { found: String, stated: String } = "E444" Error,
        says "by their places the thresholds lie at a true bearing of {found}; `bearing` is {stated}",
        wants "places that agree with `bearing` within 2°",
        fix "check whether the ends are exchanged, and whether `bearing` is true and not magnetic";
    /// One coordinate of a place is given without the other.
    HalfPlace { given: String, missing: String } = "E445" Error,
        says "`{given}` stands without `{missing}`",
        wants "both, or none",
        fix "add `{missing}`";
    /// The text of a grid breaks its form.
    GridText { why: String, wanted: String } = "E446" Error,
        says "{why}",
        wants "{wanted}",
        fix "write ncols, nrows, xllcorner, yllcorner, cellsize and, if need be, nodata_value, then a level for each column of each row, from north to south";
    /// The text is no collection of places.
    NotPlaces { why: String } = "E447" Error,
        says "this is no GeoJSON: {why}",
        wants "a FeatureCollection of obstacles and areas",
        fix "export it again as GeoJSON with longitude and latitude";
    /// A place lacks what makes it an obstacle or an area.
    PlaceWithout { what: String, wanted: String, advice: String } = "E448" Error,
        says "{what}",
        wants "{wanted}",
        fix "{advice}";
    /// A level lies far from its neighbour.
    LevelJump { apart: String, away: String, line: u32, earlier: u32 } = "E449" Error,
        says "the level on line {line} differs by {apart} from that on line {earlier}, {away} away",
        wants "levels of one unit over one datum",
        fix "check both numbers, and that every row is in the unit that the heading names";

    /// The first line does not name the columns.
    NoHeader { columns: String } = "E501" Error,
        says "the first line does not name the columns",
        wants "the columns {columns}",
        fix "write as the first line: {columns}";
    /// A column has no unit.
    ColumnUnit { column: String, choices: String } = "E502" Error,
        says "column `{column}` does not say its unit",
        wants "{choices}",
        fix "name the column {choices}";
    /// No column of the format is named so.
    UnknownColumn { column: String, columns: String, advice: String } = "E503" Error,
        says "column `{column}` is not known here",
        wants "the columns {columns}",
        fix "{advice}";
    /// A column is missing.
    MissingColumn { column: String, columns: String } = "E504" Error,
        says "the column {column} is missing",
        wants "the columns {columns}",
        fix "write as the first line: {columns}";
    /// A column stands twice.
    RepeatedColumn { column: String } = "E505" Error,
        says "column `{column}` stands twice",
        wants "each column once",
        fix "remove one of them";
    /// A row has too many or too few cells.
    CellCount { found: usize, wanted: usize } = "E506" Error,
        says "this row has {found} cells, the first line names {wanted} columns",
        wants "{wanted} cells",
        fix "check for a missing cell or a comma inside a number";
    /// A cell is empty.
    EmptyCell { column: String } = "E507" Error,
        says "the cell of `{column}` is empty",
        wants "a value",
        fix "fill it in, or remove the row";
    /// A cell is no number.
    CellNumber { column: String, wanted: String } = "E508" Error,
        says "the cell of `{column}` is not {wanted}",
        wants "{wanted}",
        fix "write digits with a point before decimals, no unit and no blanks";
    /// Stations of a line do not rise.
    StationOrder { station: String, before: String, offset: String, line: u32, earlier: u32 }
        = "E509" Error,
        says "station {station} on line {line} follows station {before} on line {earlier}, offset {offset}",
        wants "stations that rise along each offset",
        fix "sort the rows by offset and station";
    /// A point stands twice.
    DuplicatePoint { station: String, offset: String, line: u32, earlier: u32 } = "E510" Error,
        says "station {station} at offset {offset} stands on line {earlier} and on line {line}",
        wants "each point once",
        fix "remove one of the two rows";
    /// Depths of a sounding do not rise.
    DepthOrder { depth: String, before: String, line: u32, earlier: u32 } = "E511" Error,
        says "depth {depth} on line {line} follows depth {before} on line {earlier}",
        wants "depths that rise within one sounding",
        fix "put the rows of one sounding together in the order of depth, and check the numbers";
    /// The cone went down without a blow.
    NoBlows { depth: String } = "E512" Error,
        says "the cone went to {depth} without a blow",
        wants "one blow or more for each depth",
        fix "if the cone sank by itself, write 1 blow; a first row of 0 blows must be at depth 0";
    /// A sounding stands twice.
    DuplicateSounding { station: String, offset: String, line: u32, earlier: u32 } = "E513" Error,
        says "the sounding at station {station}, offset {offset} on line {line} also stands on line {earlier}",
        wants "the rows of one sounding one below the other, each sounding once",
        fix "move its rows together, or put station, offset or date right";
    /// Hammer or soil changes inside one sounding.
    ChangedWithin { column: String, before: String } = "E514" Error,
        says "`{column}` changes inside one sounding",
        wants "`{before}`, as in the row above",
        fix "write the same `{column}` in all rows of one sounding";
    /// A row follows the refusal of a sounding.
    AfterRefusal {} = "E515" Error,
        says "this row goes on after the cone met refusal",
        wants "`refusal` in the last row of the sounding only",
        fix "move the note to the last row, or remove the rows after it";
    /// A table of rows has a first line and no more.
    NoRows { what: String } = "E516" Warning,
        says "the file has no rows: it counts as no {what}",
        wants "one row or more",
        fix "fill it in; until then the checks that need it are unproven";
    /// A quote is not closed on its line.
    OpenQuote {} = "E517" Error,
        says "a quote opens here and is not closed on its line",
        wants "quotes that close on their line, or none",
        fix "remove the quotes; no cell of this file needs them";
    /// A chart has no column of values of its kind.
    ChartValues { gives: String, column: String } = "E530" Error,
        says "a chart of {gives} needs the column {column}",
        wants "the column {column} for the values",
        fix "name the column of the values {column}, or put `gives` right";
    /// A chart has no column to enter it with.
    ChartArguments { columns: String } = "E531" Error,
        says "the chart has nothing to be entered with",
        wants "one or more of the columns {columns}",
        fix "add the columns that the chart is entered with";
    /// A chart has two values for the same arguments.
    ChartTwice { line: u32, earlier: u32 } = "E532" Error,
        says "lines {earlier} and {line} give a value for the same arguments",
        wants "one value for each combination of arguments",
        fix "remove one of the two rows, or put the slip of the pen right";
    /// A chart lacks values of its grid.
    ChartHole { found: usize, wanted: String, missing: String } = "E533" Error,
        says "the chart has {found} values where its arguments make {wanted}: none at {missing}",
        wants "a value for every combination of the arguments that stand in the file",
        fix "fill it in from the manual, or leave out the rows of the argument that the manual does not cover";
    /// A chart goes the wrong way.
    ChartBackwards { argument: String, line: u32, earlier: u32, way: String } = "E534" Error,
        says "from line {earlier} to line {line} the value {way} as {argument} rises",
        wants "values that go one way: more mass, altitude or temperature never helps, more headwind never harms",
        fix "check both rows against the manual: digits may be exchanged or units mixed";
    /// A chart with a wind column does not say which wind.
    ChartWindKind {} = "E535" Error,
        says "the chart has a column of headwind, but not which headwind it is entered with",
        wants "wind = \"reported\" where the manual has half of a headwind and one and a half times a tailwind in it, else wind = \"credited\"",
        fix "add `wind` to this chart";
    /// A chart has a column that it cannot have.
    ChartStranger { gives: String, column: String } = "E536" Error,
        says "a chart of {gives} has the column `{column}`",
        wants "a chart of distances with mass and without distance available, or a chart of masses the other way round",
        fix "remove the column, or put `gives` right";

    /// The text is no day of the year.
    NotADayOfTheYear { key: String } = "E550" Error,
        says "`{key}` is not a day of the year",
        wants "month-day, two digits each",
        fix "write \"04-01\" for the first of April";

    /// Days of a temperature record do not rise.
    DayOrder { before: String } = "E551" Error,
        says "this day does not come after the day before it, {before}",
        wants "one row a day, the earliest first",
        fix "sort the rows by date and leave each day once";
    /// Days of a temperature record are missing.
    DayGap { before: String, days: String } = "E552" Error,
        says "{days} days are missing after {before}",
        wants "a record without gaps of more than 3 days",
        fix "fill in the days from a station nearby, or begin the record after the gap";
    /// The climate of a strip is stated twice.
    TwoClimates {} = "E553" Error,
        says "both `monthly_mean` and `daily` are given",
        wants "the monthly means or the record day by day",
        fix "keep `daily`, which tells more, and remove `monthly_mean`";
    /// A temperature record is too short.
    ShortRecord { days: String } = "E554" Error,
        says "the record covers {days} days",
        wants "two years or more, one row a day",
        fix "lengthen the record, or give `monthly_mean` in its place";
    /// A sounding has no reading below the surface.
    NothingReached { station: String, offset: String } = "E555" Error,
        says "the sounding at station {station}, offset {offset} has no reading below the surface: it tells no strength",
        wants "a row or more with blows and the depth that they reached",
        fix "add its readings; if the cone met refusal at the surface, take the sounding out, note it in a line that starts with #, and sound again beside it";
    /// Blows of a first row went nowhere.
    BlowsAtSurface { blows: String } = "E556" Error,
        says "the first row of this sounding has {blows} blows and depth 0",
        wants "the depth below the surface after these blows, or 0 blows at depth 0",
        fix "write how deep the cone went; if it met refusal at the surface, take the sounding out, note it in a line that starts with #, and sound again beside it";

    /// A weather report lacks a group.
    GroupMissing { group: String, form: String } = "E601" Error,
        says "the weather report has no {group}",
        wants "{form}",
        fix "copy the whole report as it was issued";
    /// A group of a weather report is written wrongly.
    GroupBad { group: String, why: String, form: String } = "E602" Error,
        says "the {group} cannot be read: {why}",
        wants "{form}",
        fix "compare it with the report as it was issued";
    /// A group of a weather report is not understood.
    GroupUnknown { group: String } = "E603" Warning,
        says "the group `{group}` is not understood and not used",
        wants "wind, visibility, weather, cloud, temperature and pressure in that order",
        fix "compare it with the report as it was issued";
    /// A weather report does not report something.
    NotReported { what: String } = "E604" Warning,
        says "the weather report gives no {what}",
        wants "a value for the {what}",
        fix "add `{what}` as a key of the day if it is known from elsewhere";
    /// Two groups of a weather report give different temperatures.
    TemperaturesApart { body: String, remark: String } = "E605" Warning,
        says "the remark gives {remark}, the report itself {body}",
        wants "temperatures that agree within rounding",
        fix "check the report; the higher of the two is used";
    /// There is more than one weather report.
    SeveralReports {} = "E606" Error,
        says "a second weather report starts here",
        wants "one report",
        fix "keep the report that is to be used";
    /// The report says that there is no report.
    NilReport {} = "E607" Error,
        says "the report is NIL: it holds no weather",
        wants "a report with wind, temperature and pressure",
        fix "leave the key out, or give wind, temperature and pressure as keys of their own";
    /// The day of the report does not exist near the date.
    NoSuchDay { day: u8 } = "E608" Error,
        says "no day {day} lies within a fortnight of the date of the file",
        wants "a report of about that date",
        fix "check `date` and the day in the report";
    /// The report is longer than any report.
    ReportTooLong { length: usize, limit: usize } = "E609" Error,
        says "the weather report has {length} bytes; at most {limit} are read",
        wants "one report of at most {limit} bytes",
        fix "keep the report that is to be used";
}
