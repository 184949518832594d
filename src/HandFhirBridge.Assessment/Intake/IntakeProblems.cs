using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Everything that can be wrong with what is handed in: documents, files and CSV tables. Codes HFB1001 to HFB1599.</summary>
public static class IntakeProblems
{
    // 10xx: text, JSON and values in general
    /// <summary>HFB1001: Document larger than 1 MiB.</summary>
    public static readonly ProblemKind DocumentTooLarge = new(
        "HFB1001", Severity.Error, "too-long", 413, false, "Document larger than 1 MiB", "Send one session per document and shorten notes; the limit is 1,048,576 bytes.");
    /// <summary>HFB1002: Text is not UTF-8.</summary>
    public static readonly ProblemKind NotUtf8 = Malformed("HFB1002", "Text is not UTF-8", "Save the text as UTF-8.");
    /// <summary>HFB1003: Document is empty.</summary>
    public static readonly ProblemKind DocumentEmpty = Malformed("HFB1003", "Document is empty", "Send a session document.");
    /// <summary>HFB1004: Document ends too early.</summary>
    public static readonly ProblemKind DocumentTruncated = Malformed("HFB1004", "Document ends too early", "Send the whole document again; its end is missing.");
    /// <summary>HFB1005: Text is not JSON.</summary>
    public static readonly ProblemKind NotJson = Malformed("HFB1005", "Text is not JSON", "Correct the JSON at the line and column named.");
    /// <summary>HFB1006: Property given twice.</summary>
    public static readonly ProblemKind DuplicateProperty = Error("HFB1006", "structure", "Property given twice", "Keep the right one and remove the other.");
    /// <summary>HFB1007: Unknown property.</summary>
    public static readonly ProblemKind UnknownProperty = Error("HFB1007", "structure", "Unknown property", "Remove it or correct its name.");
    /// <summary>HFB1008: Required property missing.</summary>
    public static readonly ProblemKind MissingProperty = Error("HFB1008", "required", "Required property missing", "Add it.");
    /// <summary>HFB1009: Value of the wrong type.</summary>
    public static readonly ProblemKind WrongType = Error("HFB1009", "structure", "Value of the wrong type", "Write a value of the type named.");
    /// <summary>HFB1010: Value not among those allowed.</summary>
    public static readonly ProblemKind UnknownChoice = Error("HFB1010", "code-invalid", "Value not among those allowed", "Use one of the values allowed; upper and lower case count.");
    /// <summary>HFB1011: Text is empty.</summary>
    public static readonly ProblemKind BlankText = Error("HFB1011", "value", "Text is empty", "Write the text, or leave the property out if it is optional.");
    /// <summary>HFB1012: White space around a value.</summary>
    public static readonly ProblemKind SurroundingWhitespace = Error("HFB1012", "value", "White space around a value", "Remove the white space before and after it.");
    /// <summary>HFB1013: Control character in text.</summary>
    public static readonly ProblemKind ControlCharacter = Error("HFB1013", "value", "Control character in text", "Remove it.");
    /// <summary>HFB1014: Entry listed twice.</summary>
    public static readonly ProblemKind DuplicateEntry = Error("HFB1014", "duplicate", "Entry listed twice", "List it once.");
    /// <summary>HFB1015: Number in exponent notation.</summary>
    public static readonly ProblemKind ExponentNotation = Error("HFB1015", "value", "Number in exponent notation", "Write the number out in digits with a decimal point.");
    /// <summary>HFB1016: Number that cannot be kept digit for digit.</summary>
    public static readonly ProblemKind NumberNotExact = Error("HFB1016", "value", "Number that cannot be kept digit for digit", "Write it with at most 28 digits and no minus sign before a zero.");
    /// <summary>HFB1017: Decimal comma.</summary>
    public static readonly ProblemKind DecimalComma = Error("HFB1017", "value", "Decimal comma", "Write a decimal point.");
    /// <summary>HFB1018: Not a whole number.</summary>
    public static readonly ProblemKind NotWholeNumber = Error("HFB1018", "value", "Not a whole number", "Write a whole number without decimal point.");
    /// <summary>HFB1019: Schema version not supported.</summary>
    public static readonly ProblemKind UnsupportedSchema = Error("HFB1019", "not-supported", "Schema version not supported", "Write the session in schema version 1.");

    // 11xx: which session, whose, by whom
    /// <summary>HFB1101: Id outside its alphabet.</summary>
    public static readonly ProblemKind InvalidId = Error("HFB1101", "value", "Id outside its alphabet", "Use 1 to 64 letters a-z, A-Z, digits, dots and hyphens, beginning with a letter or digit.");
    /// <summary>HFB1102: Revision below 1.</summary>
    public static readonly ProblemKind RevisionBelowOne = Error("HFB1102", "value", "Revision below 1", "Write 1 for the first version and one more for each correction.");
    /// <summary>HFB1103: Identifier system is not an absolute URI.</summary>
    public static readonly ProblemKind SystemNotAbsolute = Error("HFB1103", "value", "Identifier system is not an absolute URI", "Write the full URI of the numbering, such as https://clinic.example/id/patient or urn:oid:1.2.3.");
    /// <summary>HFB1104: Instrument or version not known here.</summary>
    public static readonly ProblemKind UnknownInstrument = Error("HFB1104", "not-supported", "Instrument or version not known here", "Name an instrument and version this installation knows.");
    /// <summary>HFB1105: Birth date after the session.</summary>
    public static readonly ProblemKind BornAfterSession = Error("HFB1105", "business-rule", "Birth date after the session", "Correct the birth date or the start of the session.");
    /// <summary>HFB1106: Age above 120 years.</summary>
    public static readonly ProblemKind AgeAbsurd = Error("HFB1106", "business-rule", "Age above 120 years", "Correct the birth date or the start of the session.");
    /// <summary>HFB1107: Conclusion signed by an assistant or student.</summary>
    public static readonly ProblemKind SignedByAssistant = Warning("HFB1107", "Conclusion signed by an assistant or student", "Check who may sign where you work; have the supervising therapist sign, as performer of a correction.");

    // 12xx: dates and times of day
    /// <summary>HFB1201: Time without offset.</summary>
    public static readonly ProblemKind InstantWithoutOffset = Error("HFB1201", "value", "Time without offset", "Add the offset of the place, such as +01:00 or Z.");
    /// <summary>HFB1202: Not a date or time in the form asked.</summary>
    public static readonly ProblemKind NotADate = Error("HFB1202", "value", "Not a date or time in the form asked", "Write a date as 2026-03-02 and a time as 2026-03-02T09:05:00+01:00.");
    /// <summary>HFB1203: Date or time that does not exist.</summary>
    public static readonly ProblemKind ImpossibleDate = Error("HFB1203", "value", "Date or time that does not exist", "Correct day, month, hour, minute, second or offset.");
    /// <summary>HFB1204: Time in the future.</summary>
    public static readonly ProblemKind InFuture = Error("HFB1204", "business-rule", "Time in the future", "Correct the time, or the clock of the machine that wrote it.");
    /// <summary>HFB1205: End before the start.</summary>
    public static readonly ProblemKind EndBeforeStart = Error("HFB1205", "business-rule", "End before the start", "Correct startedAt or endedAt.");
    /// <summary>HFB1206: Trial outside the session's time.</summary>
    public static readonly ProblemKind TrialOutsideSession = Error("HFB1206", "business-rule", "Trial outside the session's time", "Correct the trial's startedAt, or the session's startedAt and endedAt.");
    /// <summary>HFB1207: Trial listed after one that began later.</summary>
    public static readonly ProblemKind TrialsNotInOrderOfTime = Error("HFB1207", "business-rule", "Trial listed after one that began later", "List the trials in the order in which they ran, or correct startedAt.");
    /// <summary>HFB1208: Session longer than eight hours.</summary>
    public static readonly ProblemKind LongSession = Warning("HFB1208", "Session longer than eight hours", "Check startedAt and endedAt.");
    /// <summary>HFB1209: Conclusion signed before the session ended.</summary>
    public static readonly ProblemKind SignedBeforeEnd = Error("HFB1209", "business-rule", "Conclusion signed before the session ended", "Correct signedAt, or sign when all trials were given.");

    // 13xx: trials
    /// <summary>HFB1301: Task the instrument does not have.</summary>
    public static readonly ProblemKind UnknownTask = Error("HFB1301", "code-invalid", "Task the instrument does not have", "Name a task of the instrument.");
    /// <summary>HFB1302: Departure the instrument does not list.</summary>
    public static readonly ProblemKind UnknownDeparture = Error("HFB1302", "code-invalid", "Departure the instrument does not list", "Name a departure of the instrument, or describe it in note.");
    /// <summary>HFB1303: Outcome this task cannot have.</summary>
    public static readonly ProblemKind OutcomeNotPossible = Error("HFB1303", "business-rule", "Outcome this task cannot have", "Use an outcome the task can have.");
    /// <summary>HFB1304: Seconds missing.</summary>
    public static readonly ProblemKind SecondsMissing = Error("HFB1304", "required", "Seconds missing", "Add the seconds, or give an outcome without a time.");
    /// <summary>HFB1305: Seconds with an outcome that has none.</summary>
    public static readonly ProblemKind SecondsNotExpected = Error("HFB1305", "business-rule", "Seconds with an outcome that has none", "Remove the seconds (they may stand in note), or correct the outcome.");
    /// <summary>HFB1306: Seconds not above zero.</summary>
    public static readonly ProblemKind SecondsNotPositive = Error("HFB1306", "value", "Seconds not above zero", "Write the time measured, or the outcome that tells why there is none.");
    /// <summary>HFB1307: Seconds beyond any trial.</summary>
    public static readonly ProblemKind SecondsAbsurd = Error("HFB1307", "value", "Seconds beyond any trial", "Correct the seconds; a trial that was stopped has the outcome stopped-at-cap.");
    /// <summary>HFB1308: More decimals than a stopwatch gives.</summary>
    public static readonly ProblemKind TooManyDecimals = Error("HFB1308", "value", "More decimals than a stopwatch gives", "Write the time as the stopwatch showed it.");
    /// <summary>HFB1309: Stopped at the cap without a cap in force.</summary>
    public static readonly ProblemKind StoppedWithoutCap = Error("HFB1309", "business-rule", "Stopped at the cap without a cap in force", "Add setup.capSeconds, or correct the outcome.");
    /// <summary>HFB1310: Stopped trial with seconds other than the cap.</summary>
    public static readonly ProblemKind StoppedNotAtCap = Error("HFB1310", "business-rule", "Stopped trial with seconds other than the cap", "Write the cap in force as the seconds, or correct the outcome.");
    /// <summary>HFB1311: Completed in more than the cap in force.</summary>
    public static readonly ProblemKind CompletedAboveCap = Error("HFB1311", "business-rule", "Completed in more than the cap in force", "Correct the seconds or setup.capSeconds, or use the outcome stopped-at-cap.");
    /// <summary>HFB1312: Source of the seconds missing.</summary>
    public static readonly ProblemKind SourceMissing = Error("HFB1312", "required", "Source of the seconds missing", "Add source: timer or manual.");
    /// <summary>HFB1313: Source of a time where there is no time.</summary>
    public static readonly ProblemKind SourceNotExpected = Error("HFB1313", "business-rule", "Source of a time where there is no time", "Remove source, or correct the outcome.");
    /// <summary>HFB1314: Reason missing.</summary>
    public static readonly ProblemKind ReasonMissing = Error("HFB1314", "required", "Reason missing", "Add reason: why the task was not given or the trial is void.");
    /// <summary>HFB1315: Reason where nothing is to be explained.</summary>
    public static readonly ProblemKind ReasonNotExpected = Error("HFB1315", "business-rule", "Reason where nothing is to be explained", "Move the text to note, or correct the outcome.");
    /// <summary>HFB1316: More than one counted attempt of a task and hand.</summary>
    public static readonly ProblemKind SeveralCounted = Error("HFB1316", "business-rule", "More than one counted attempt of a task and hand", "Mark the attempts that do not count with counted false.");
    /// <summary>HFB1317: No counted attempt of a task and hand.</summary>
    public static readonly ProblemKind NoneCounted = Error("HFB1317", "business-rule", "No counted attempt of a task and hand", "Mark the one attempt that counts with counted true.");
    /// <summary>HFB1318: Void trial counted although another attempt is usable.</summary>
    public static readonly ProblemKind VoidCounted = Error("HFB1318", "business-rule", "Void trial counted although another attempt is usable", "Count the other attempt and mark the void one with counted false.");
    /// <summary>HFB1319: Not given, yet attempted.</summary>
    public static readonly ProblemKind NotGivenButAttempted = Error("HFB1319", "business-rule", "Not given, yet attempted", "Remove the not-given entry, or the attempt that did not happen.");
    /// <summary>HFB1320: Task not recorded for a hand.</summary>
    public static readonly ProblemKind TaskNotRecorded = Error("HFB1320", "required", "Task not recorded for a hand", "Add a trial for it; if it was left out, with the outcome not-given and a reason.");
    /// <summary>HFB1321: No trial of one hand.</summary>
    public static readonly ProblemKind HandNotRecorded = Error("HFB1321", "required", "No trial of one hand", "Add its trials; if the hand was left out, with the outcome not-given and a reason.");
    /// <summary>HFB1322: No trials at all.</summary>
    public static readonly ProblemKind NoTrials = Error("HFB1322", "required", "No trials at all", "Add the trials of both hands; what was left out, with the outcome not-given and a reason.");
    /// <summary>HFB1323: Trials did not run in the standard order.</summary>
    public static readonly ProblemKind OrderDeparted = Information("HFB1323", "Trials did not run in the standard order", "Nothing to do if that is how they ran; note the departure order-changed on the trials concerned.");

    // 14xx: dominance, set-up, precautions
    /// <summary>HFB1401: Ambidextrous without the hand tested as dominant.</summary>
    public static readonly ProblemKind TestedAsDominantMissing = Error("HFB1401", "required", "Ambidextrous without the hand tested as dominant", "Add dominance.testedAsDominant: left or right, as the therapist chose.");
    /// <summary>HFB1402: Hand tested as dominant contradicts handedness.</summary>
    public static readonly ProblemKind TestedAsDominantContradicts = Error("HFB1402", "business-rule", "Hand tested as dominant contradicts handedness", "Correct one of the two; only an ambidextrous patient has a choice.");
    /// <summary>HFB1403: Laterality quotient outside −100 to 100.</summary>
    public static readonly ProblemKind LateralityOutOfRange = Error("HFB1403", "value", "Laterality quotient outside −100 to 100", "Write the quotient between -100 (all left) and 100 (all right).");
    /// <summary>HFB1404: Laterality quotient speaks against handedness.</summary>
    public static readonly ProblemKind LateralityContradicts = Warning("HFB1404", "Laterality quotient speaks against handedness", "Check both; the sign is minus for left.");
    /// <summary>HFB1405: Item the instrument does not have.</summary>
    public static readonly ProblemKind UnknownItem = Error("HFB1405", "code-invalid", "Item the instrument does not have", "Name a material of the instrument.");
    /// <summary>HFB1406: Length that no set-up has.</summary>
    public static readonly ProblemKind LengthOutOfRange = Error("HFB1406", "value", "Length that no set-up has", "Write the length measured, above 0 and at most 100 inches, with its unit.");
    /// <summary>HFB1407: Cap that no session has.</summary>
    public static readonly ProblemKind CapOutOfRange = Error("HFB1407", "value", "Cap that no session has", "Write the cap in force in seconds, or leave it out if there was none.");
    /// <summary>HFB1421: Precaution the instrument does not ask.</summary>
    public static readonly ProblemKind UnknownPrecaution = Error("HFB1421", "code-invalid", "Precaution the instrument does not ask", "Name a precaution of the instrument, or write it in comment.");
    /// <summary>HFB1422: Task ruled out by a precaution answered no.</summary>
    public static readonly ProblemKind RulesOutWithoutCause = Error("HFB1422", "business-rule", "Task ruled out by a precaution answered no", "Correct the answer, or remove rulesOut.");
    /// <summary>HFB1423: Task given although a precaution ruled it out.</summary>
    public static readonly ProblemKind RuledOutTaskGiven = Warning("HFB1423", "Task given although a precaution ruled it out", "Check with the therapist: correct the trial or the precaution if it did not happen so.");
    /// <summary>HFB1424: Precautions not recorded as asked.</summary>
    public static readonly ProblemKind PrecautionsNotAsked = Information("HFB1424", "Precautions not recorded as asked", "Record each precaution with its answer before the test is given.");

    // 15xx: files, folders and CSV tables
    /// <summary>HFB1501: File or folder does not exist.</summary>
    public static readonly ProblemKind PathNotFound = Error("HFB1501", "not-found", "File or folder does not exist", "Check the path.");
    /// <summary>HFB1502: File cannot be read.</summary>
    public static readonly ProblemKind FileNotReadable = Error("HFB1502", "processing", "File cannot be read", "Check the permissions, and that no other program holds the file.");
    /// <summary>HFB1503: Kind of file not known.</summary>
    public static readonly ProblemKind UnknownFileKind = Error("HFB1503", "not-supported", "Kind of file not known", "Hand in .json, .ndjson, .jsonl, .csv or .tsv.");
    /// <summary>HFB1504: Nothing to read.</summary>
    public static readonly ProblemKind FolderWithoutSessions = Error("HFB1504", "not-found", "Nothing to read", "Name a folder or file that holds session documents.");
    /// <summary>HFB1511: CSV header not usable.</summary>
    public static readonly ProblemKind HeaderUnusable = Error("HFB1511", "structure", "CSV header not usable", "Write the column names in the first row, separated by comma, semicolon or tab.");
    /// <summary>HFB1512: Unknown CSV column.</summary>
    public static readonly ProblemKind UnknownColumn = Error("HFB1512", "structure", "Unknown CSV column", "Remove the column or correct its name.");
    /// <summary>HFB1513: Required CSV column missing.</summary>
    public static readonly ProblemKind MissingColumn = Error("HFB1513", "required", "Required CSV column missing", "Add the column.");
    /// <summary>HFB1514: CSV column given twice.</summary>
    public static readonly ProblemKind DuplicateColumn = Error("HFB1514", "duplicate", "CSV column given twice", "Keep one of them.");
    /// <summary>HFB1515: Row with too few or too many fields.</summary>
    public static readonly ProblemKind FieldCount = Error("HFB1515", "structure", "Row with too few or too many fields", "Give the row one field per column of the header, and quote fields that contain the separator.");
    /// <summary>HFB1516: Quotation mark out of place.</summary>
    public static readonly ProblemKind BadQuote = Error("HFB1516", "structure", "Quotation mark out of place", "Enclose the whole field in quotation marks, double those within it, and keep the field on one line.");
    /// <summary>HFB1517: Rows of a session not together.</summary>
    public static readonly ProblemKind RowsNotTogether = Error("HFB1517", "structure", "Rows of a session not together", "Sort the table so that all rows of a session follow one another.");
    /// <summary>HFB1518: Rows of one session contradict each other.</summary>
    public static readonly ProblemKind RowsContradict = Error("HFB1518", "business-rule", "Rows of one session contradict each other", "Give the session's own columns the same value in all its rows, or fill them in the first row only.");
    /// <summary>HFB1519: Row that does not say which session.</summary>
    public static readonly ProblemKind RowWithoutSession = Error("HFB1519", "required", "Row that does not say which session", "Fill site and sessionId in every row.");

    /// <summary>Every kind, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(IntakeProblems));

    private static ProblemKind Malformed(string code, string title, string remedy) =>
        new(code, Severity.Error, "structure", 400, false, title, remedy);

    private static ProblemKind Error(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 422, false, title, remedy);

    private static ProblemKind Warning(string code, string title, string remedy) =>
        new(code, Severity.Warning, "business-rule", 200, false, title, remedy);

    private static ProblemKind Information(string code, string title, string remedy) =>
        new(code, Severity.Information, "informational", 200, false, title, remedy);
}
