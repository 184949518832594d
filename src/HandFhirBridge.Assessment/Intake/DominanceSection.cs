using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Handedness and the hand tested as dominant.</summary>
internal static class DominanceSection
{
    // The inventory's author gives no limits; ±40 is where ambidexterity is usually drawn. Common practice, no source.
    private const decimal Ambiguous = 40;

    public static Dominance? Read(Field field)
    {
        if (field.Object("handedness", "howKnown", "lateralityQuotient", "testedAsDominant") is not { } fields)
        {
            return null;
        }

        var handedness = fields.Required("handedness").Choice<Handedness>();
        var howKnown = fields.Required("howKnown").Choice<DominanceSource>();
        var quotient = Quotient(fields.Optional("lateralityQuotient"), handedness);
        var tested = Tested(fields.Optional("testedAsDominant"), handedness);
        return howKnown is null || tested is null ? null : new Dominance(handedness!.Value, howKnown.Value, quotient, tested.Value);
    }

    private static Hand? Tested(Field field, Handedness? handedness)
    {
        var written = field.Choice<Hand>();
        if (handedness is Handedness.Ambidextrous && !field.IsPresent)
        {
            field.Problems.Add(IntakeProblems.TestedAsDominantMissing, field.Path, "is missing, though handedness is ambidextrous.");
        }

        Hand? natural = handedness switch
        {
            Handedness.Left => Hand.Left,
            Handedness.Right => Hand.Right,
            _ => null,
        };
        if (natural is { } hand && written is { } other && hand != other)
        {
            field.Problems.Add(IntakeProblems.TestedAsDominantContradicts, field.Path,
                $"is {WireName.Of(other)}, but handedness is {WireName.Of(hand)}.", WireName.Of(other));
            return null;
        }

        return handedness is null ? null : written ?? natural;
    }

    private static decimal? Quotient(Field field, Handedness? handedness)
    {
        if (field.Number() is not { } quotient)
        {
            return null;
        }

        if (quotient is < -100 or > 100)
        {
            field.Problems.Add(IntakeProblems.LateralityOutOfRange, field.Path, $"is {field.Raw}; −100 to 100 is possible.", field.Raw);
        }
        else if (handedness is { } stated && SpeaksAgainst(quotient, stated))
        {
            field.Problems.Add(IntakeProblems.LateralityContradicts, field.Path,
                $"is {field.Raw}, which speaks against the handedness {WireName.Of(stated)}.", field.Raw);
        }

        return quotient;
    }

    private static bool SpeaksAgainst(decimal quotient, Handedness handedness) => handedness switch
    {
        Handedness.Left => quotient > Ambiguous,
        Handedness.Right => quotient < -Ambiguous,
        _ => Math.Abs(quotient) > Ambiguous,
    };
}
