namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>One edit of a good document, and the one problem it must give: code, JSON path.</summary>
internal static class FaultTable
{
    public static TheoryData<string, string, string> Rows => new()
    {
        // names, types, choices
        { "HFB1007", "$.colour", "colour = 1" },
        { "HFB1007", "$.trials[2]['left hand']", "trials[2].left hand = true" },
        { "HFB1007", "$.patient.famlyName", "- patient.familyName ; patient.famlyName = \"Tarrowby\"" },
        { "HFB1007", "$.patient.name", "patient.name = \"Maren\"" },
        { "HFB1008", "$.sessionId", "- sessionId" },
        { "HFB1008", "$.site", "site = null" },
        { "HFB1008", "$.instrument", "- instrument" },
        { "HFB1008", "$.patient.identifier", "- patient.identifier" },
        { "HFB1008", "$.patient.identifier.system", "- patient.identifier.system" },
        { "HFB1008", "$.trials", "- trials" },
        { "HFB1008", "$.setup.templateBoard", "- setup.templateBoard" },
        { "HFB1009", "$.patient", "patient = \"Tarrowby\"" },
        { "HFB1009", "$.trials", "trials = {}" },
        { "HFB1009", "$.trials[3]", "trials[3] = null" },
        { "HFB1009", "$.trials[3].seconds", "trials[3].seconds = \"12.4\"" },
        { "HFB1009", "$.trials[3].seconds", "trials[3].seconds = \"twelve\"" },
        { "HFB1009", "$.trials[3].counted", "trials[3].counted = 1" },
        { "HFB1009", "$.setup.templateBoard", "setup.templateBoard = \"no\"" },
        { "HFB1009", "$.sessionId", "sessionId = 7" },
        { "HFB1009", "$.trials[0].departures[0]", "trials[0].departures = [null]" },
        { "HFB1010", "$.trials[3].hand", "trials[3].hand = \"Left\"" },
        { "HFB1010", "$.trials[3].outcome", "trials[3].outcome = \"done\"" },
        { "HFB1010", "$.performer.role", "performer.role = \"therapist\"" },
        { "HFB1010", "$.setup.tableHeight.unit", "setup.tableHeight.unit = \"mm\"" },
        { "HFB1011", "$.patient.familyName", "patient.familyName = \"  \"" },
        { "HFB1011", "$.trials[3].note", "trials[3].note = \"\"" },
        { "HFB1012", "$.patient.identifier.value", "patient.identifier.value = \"HHC-004417 \"" },
        { "HFB1012", "$.patient.familyName", "patient.familyName = \"\\u00a0Tarrowby\"" },
        { "HFB1013", "$.performer.name", "performer.name = \"Ines\\nCalderwick\"" },
        { "HFB1013", "$.comment", "comment = \"a\\u0000b\"" },
        { "HFB1014", "$.trials[0].departures[1]", "trials[0].departures = [\"item-dropped\", \"item-dropped\"]" },
        { "HFB1014", "$.precautions[6].precaution", "precautions[6] = { \"precaution\": \"open-wound\", \"answer\": \"no\" }" },
        { "HFB1014", "$.setup.itemsReplaced[1].item", "setup.itemsReplaced = [{ \"item\": \"coin\", \"replacedBy\": \"washer\" }, { \"item\": \"coin\", \"replacedBy\": \"token\" }]" },
        { "HFB1015", "$.trials[3].seconds", "trials[3].seconds = 1.24e1" },
        { "HFB1015", "$.revision", "revision = 1E0" },
        { "HFB1016", "$.trials[3].seconds", "trials[3].seconds = 12.4000000000000000000000000001" },
        { "HFB1016", "$.dominance.lateralityQuotient", "dominance.lateralityQuotient = -0" },
        { "HFB1017", "$.trials[3].seconds", "trials[3].seconds = \"12,40\"" },
        { "HFB1018", "$.revision", "revision = 1.0" },
        { "HFB1018", "$.revision", "revision = 2147483648" },
        { "HFB1019", "$.schemaVersion", "schemaVersion = \"2\"" },
        { "HFB1019", "$['$schema']", "$schema = \"https://json-schema.org/draft/2020-12/schema\"" },

        // which session, whose, by whom
        { "HFB1101", "$.sessionId", "sessionId = \"2026/17\"" },
        { "HFB1101", "$.sessionId", "sessionId = \"..\"" },
        { "HFB1101", "$.sessionId", "sessionId = \"\"" },
        { "HFB1101", "$.sessionId", "sessionId = \"a123456789012345678901234567890123456789012345678901234567890123x\"" },
        { "HFB1101", "$.site", "site = \"harbour_hand\"" },
        { "HFB1102", "$.revision", "revision = 0" },
        { "HFB1103", "$.patient.identifier.system", "patient.identifier.system = \"/id/patient\"" },
        { "HFB1103", "$.encounter.system", "encounter.system = \"visits\"" },
        { "HFB1103", "$.order.system", "order.system = \"https://clinic.example/a b\"" },
        { "HFB1104", "$.instrument", "instrument.version = \"9\"" },
        { "HFB1105", "$.patient.birthDate", "patient.birthDate = \"2026-06-17\"" },
        { "HFB1106", "$.patient.birthDate", "patient.birthDate = \"1905-06-16\"" },
        { "HFB1209", "$.conclusion.signedAt", "conclusion = { \"text\": \"Slow.\", \"signedAt\": \"2026-06-16T08:50:00+02:00\" }" },
        { "HFB1204", "$.conclusion.signedAt", "conclusion = { \"text\": \"Slow.\", \"signedAt\": \"2036-06-16T09:50:00+02:00\" }" },
        { "HFB1008", "$.conclusion.signedAt", "conclusion = { \"text\": \"Slow.\" }" },
        { "HFB1011", "$.conclusion.text", "conclusion = { \"text\": \" \", \"signedAt\": \"2026-06-16T09:50:00+02:00\" }" },

        // dates and times: RFC 3339 sections 5.6 and 4.3
        { "HFB1201", "$.startedAt", "startedAt = \"2026-06-16T09:00:00\"" },
        { "HFB1201", "$.endedAt", "endedAt = \"2026-06-16T09:40:00-00:00\"" },
        { "HFB1202", "$.startedAt", "startedAt = \"16.06.2026 09:00\"" },
        { "HFB1202", "$.patient.birthDate", "patient.birthDate = \"12/04/1988\"" },
        { "HFB1202", "$.trials[0].startedAt", "trials[0].startedAt = \"09:04\"" },
        { "HFB1203", "$.patient.birthDate", "patient.birthDate = \"2026-02-30\"" },
        { "HFB1203", "$.startedAt", "startedAt = \"2026-06-31T09:00:00+02:00\"" },
        { "HFB1203", "$.startedAt", "startedAt = \"2026-06-16T25:00:00+02:00\"" },
        { "HFB1203", "$.startedAt", "startedAt = \"2026-06-16T09:00:00+15:00\"" },
        { "HFB1204", "$.endedAt", "endedAt = \"2026-11-01T12:05:01Z\" ; startedAt = \"2026-11-01T12:00:00Z\" ; trials = " + Timeless },
        { "HFB1205", "$.endedAt", "endedAt = \"2026-06-16T08:59:59+02:00\"" },
        { "HFB1206", "$.trials[13].startedAt", "trials[13].startedAt = \"2026-06-16T10:40:00+02:00\"" },
        { "HFB1206", "$.trials[0].startedAt", "trials[0].startedAt = \"2026-06-16T08:59:00+02:00\"" },
        { "HFB1207", "$.trials[7].startedAt", "trials[7].startedAt = \"2026-06-16T09:04:30+02:00\"" },

        // trials
        { "HFB1301", "$.trials[3].task", "trials[3].task = \"card-turnning\"" },
        { "HFB1302", "$.trials[3].departures[0]", "trials[3].departures = [\"sneezed\"]" },
        { "HFB1304", "$.trials[3].seconds", "- trials[3].seconds" },
        { "HFB1304", "$.trials[3].seconds", "- trials[3].seconds ; - trials[3].source" },
        { "HFB1305", "$.trials[3].seconds", "trials[3].outcome = \"unable\"" },
        { "HFB1306", "$.trials[3].seconds", "trials[3].seconds = 0" },
        { "HFB1306", "$.trials[3].seconds", "trials[3].seconds = -4.20" },
        { "HFB1307", "$.trials[3].seconds", "trials[3].seconds = 100000" },
        { "HFB1308", "$.trials[3].seconds", "trials[3].seconds = 4.20000" },
        { "HFB1308", "$.setup.capSeconds", "setup.capSeconds = 120.0000" },
        { "HFB1309", "$.trials[3].seconds", "- setup.capSeconds ; trials[3].outcome = \"stopped-at-cap\"" },
        { "HFB1310", "$.trials[3].seconds", "trials[3].outcome = \"stopped-at-cap\" ; trials[3].seconds = 119.99" },
        { "HFB1311", "$.trials[3].seconds", "trials[3].seconds = 120.01" },
        { "HFB1312", "$.trials[3].source", "- trials[3].source" },
        { "HFB1313", "$.trials[3].source", "trials[3].outcome = \"declined\" ; - trials[3].seconds" },
        { "HFB1314", "$.trials[3].reason", "trials[3].outcome = \"not-given\" ; - trials[3].seconds ; - trials[3].source" },
        { "HFB1314", "$.trials[3].reason", "trials[3].outcome = \"void\" ; - trials[3].seconds ; - trials[3].source" },
        { "HFB1315", "$.trials[3].reason", "trials[3].reason = \"went well\"" },
        { "HFB1316", "$.trials[14].counted", "trials[14] = { \"task\": \"writing\", \"hand\": \"left\", \"outcome\": \"completed\", \"seconds\": 30.10, \"source\": \"timer\" }" },
        { "HFB1317", "$.trials[3].counted", "trials[3].counted = false" },
        { "HFB1318", "$.trials[14].counted", "trials[0].counted = false ; trials[14] = { \"task\": \"writing\", \"hand\": \"left\", \"outcome\": \"void\", \"reason\": \"stopwatch\" }" },
        { "HFB1319", "$.trials[14].outcome", "trials[14] = { \"task\": \"writing\", \"hand\": \"left\", \"outcome\": \"not-given\", \"reason\": \"time\", \"counted\": false }" },
        { "HFB1320", "$.trials", "- trials[13]" },
        { "HFB1321", "$.trials", "trials = " + OneHand },
        { "HFB1322", "$.trials", "trials = []" },

        // dominance, set-up, precautions
        { "HFB1401", "$.dominance.testedAsDominant", "dominance = { \"handedness\": \"ambidextrous\", \"howKnown\": \"stated\" }" },
        { "HFB1402", "$.dominance.testedAsDominant", "dominance.testedAsDominant = \"left\"" },
        { "HFB1403", "$.dominance.lateralityQuotient", "dominance.lateralityQuotient = 100.5" },
        { "HFB1405", "$.setup.itemsReplaced[0].item", "setup.itemsReplaced = [{ \"item\": \"brick\", \"replacedBy\": \"x\" }]" },
        { "HFB1406", "$.setup.tableHeight.value", "setup.tableHeight.value = 0" },
        { "HFB1406", "$.setup.chairHeight.value", "setup.chairHeight.value = 255" },
        { "HFB1407", "$.setup.capSeconds", "setup.capSeconds = 0" },
        { "HFB1421", "$.precautions[0].precaution", "precautions[0].precaution = \"headache\"" },
        { "HFB1422", "$.precautions[0].rulesOut", "precautions[0].rulesOut = [\"writing\"]" },
    };

    public static TheoryData<string, string, string> Remarks => new()
    {
        { "HFB1107", "$.conclusion", "performer.role = \"student-under-supervision\" ; conclusion = { \"text\": \"Slow.\", \"signedAt\": \"2026-06-16T09:50:00+02:00\" }" },
        { "HFB1208", "$.endedAt", "endedAt = \"2026-06-16T17:00:01+02:00\"" },
        { "HFB1323", "$.trials[1]", "trials[0].hand = \"right\" ; trials[1].hand = \"left\"" },
        { "HFB1404", "$.dominance.lateralityQuotient", "dominance.lateralityQuotient = -60" },
        { "HFB1423", "$.trials[13]", "precautions[0] = { \"precaution\": \"lifting-restriction\", \"answer\": \"yes\", \"rulesOut\": [\"large-heavy-objects\"], \"hands\": [\"right\"] }" },
        { "HFB1424", "$.precautions", "- precautions[5]" },
    };

    private static readonly string[] Tasks =
        ["writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects"];

    private static string Timeless => $"[{string.Join(',', Tasks.SelectMany(t => new[] { Trial(t, "left"), Trial(t, "right") }))}]";

    private static string OneHand => $"[{string.Join(',', Tasks.Select(t => Trial(t, "left")))}]";

    private static string Trial(string task, string hand) =>
        $$"""{"task":"{{task}}","hand":"{{hand}}","outcome":"completed","seconds":5.10,"source":"timer"}""";
}
