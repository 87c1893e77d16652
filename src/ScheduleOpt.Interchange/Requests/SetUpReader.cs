using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>setUps</c> of a comparison.</summary>
internal static class SetUpReader
{
    /// <summary>The most set-ups of a comparison.</summary>
    public const int Most = 12;

    /// <summary>Reads the set-ups.</summary>
    public static IReadOnlyList<SetUp>? Read(JsonField? maybe)
    {
        if (maybe is not { } field || field.Items(1, Most, "set-ups") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var setUps = new List<SetUp>(items.Count);
        foreach (var item in items)
        {
            if (One(item) is not { } setUp)
            {
                continue;
            }

            if (setUps.Any(s => s.Name == setUp.Name))
            {
                item.Faults.Add($"{item.Pointer}/name", "Must be unique among the set-ups.", setUp.Name);
            }

            setUps.Add(setUp);
        }

        return field.Faults.Count > before ? null : setUps;
    }

    private static SetUp? One(JsonField item)
    {
        if (item.Members("name", "supply", "publicChargingOnly") is not { } setUp)
        {
            return null;
        }

        var name = setUp.Required("name", "Every set-up has a name.")?.Text(100);
        var choice = setUp.ExactlyOne("supply", "publicChargingOnly");
        if (setUp.Has("publicChargingOnly"))
        {
            if (choice?.Flag() == false)
            {
                choice.Value.Fault("Must be true where it is given; for charging at home give supply.");
            }

            return name is null ? null : SetUp.PublicChargingOnly(name);
        }

        var supply = SupplyReader.Read(choice);
        return name is null || supply is null ? null : new SetUp(name, supply);
    }
}
