using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>How the table was laid.</summary>
/// <param name="Setup">Null if anything required is absent or unreadable.</param>
/// <param name="CapKnown">True if it is certain which cap was in force, or that none was.</param>
internal readonly record struct SetupSection(Setup? Setup, bool CapKnown)
{
    private const decimal LongestInches = 100;

    public static SetupSection Read(Field field, Instrument? instrument)
    {
        if (field.Object("glasses", "templateBoard", "capSeconds", "tableHeight", "chairHeight", "edgeToItems", "betweenItems",
            "itemsReplaced", "kit") is not { } fields)
        {
            return default;
        }

        var glasses = fields.Required("glasses").Choice<Glasses>();
        var board = fields.Required("templateBoard").Flag();
        var capField = fields.Optional("capSeconds");
        var cap = Cap(capField, instrument);
        var setup = new Setup(
            glasses ?? default, board ?? default, cap,
            Length(fields.Optional("tableHeight")), Length(fields.Optional("chairHeight")),
            Length(fields.Optional("edgeToItems")), Length(fields.Optional("betweenItems")),
            Replaced(fields.Optional("itemsReplaced"), instrument), Kit(fields.Optional("kit")));
        return new(setup, cap is not null || !capField.IsPresent);
    }

    private static decimal? Cap(Field field, Instrument? instrument)
    {
        if (field.Number() is not { } cap)
        {
            return null;
        }

        if (cap <= 0 || cap > instrument?.MaxSeconds)
        {
            var limit = instrument is null ? "" : string.Create(CultureInfo.InvariantCulture, $" and at most {instrument.MaxSeconds}");
            field.Problems.Add(IntakeProblems.CapOutOfRange, field.Path, $"is {field.Raw}; a cap is above 0{limit} seconds.", field.Raw);
            return null;
        }

        if (instrument is not null && cap.Scale > instrument.MaxDecimals)
        {
            field.Problems.Add(IntakeProblems.TooManyDecimals, field.Path,
                $"is {field.Raw}; at most {instrument.MaxDecimals} decimals are possible.", field.Raw);
            return null;
        }

        return cap;
    }

    private static Length? Length(Field field)
    {
        if (field.Object("value", "unit") is not { } fields)
        {
            return null;
        }

        var (valueField, unit) = (fields.Required("value"), fields.Required("unit").Choice<LengthUnit>());
        if (valueField.Number() is not { } value || unit is null)
        {
            return null;
        }

        if (value <= 0 || (unit == LengthUnit.Inch ? value > LongestInches : value > LongestInches * 2.54m))
        {
            field.Problems.Add(IntakeProblems.LengthOutOfRange, valueField.Path,
                $"is {valueField.Raw} {WireName.Of(unit.Value)}; lengths above 0 and up to {LongestInches} in are possible.", valueField.Raw);
        }

        return new Length(value, unit.Value);
    }

    private static ImmutableArray<ItemReplaced> Replaced(Field field, Instrument? instrument)
    {
        var replaced = new Dictionary<string, ItemReplaced>(StringComparer.Ordinal);
        foreach (var entry in field.Items())
        {
            if (entry.Object("item", "replacedBy") is not { } fields)
            {
                continue;
            }

            var itemField = fields.Required("item");
            var (item, by) = (itemField.Material(instrument), fields.Required("replacedBy").FreeText());
            if (item is not null && !replaced.TryAdd(item, new ItemReplaced(item, by ?? "")))
            {
                field.Problems.Add(IntakeProblems.DuplicateEntry, itemField.Path, $"is \"{item}\", which is listed already.", item);
            }
        }

        return [.. replaced.Values];
    }

    private static Kit? Kit(Field field)
    {
        if (field.Object("name", "serialNumber") is not { } fields)
        {
            return null;
        }

        var (name, serial) = (fields.Required("name").Name(), fields.Optional("serialNumber").Name());
        return name is null ? null : new Kit(name, serial);
    }
}
