using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>setUps</c> of a comparison.</summary>
internal static class SetUpReader
{
    /// <summary>The most set-ups of a comparison.</summary>
    public const int Most = 12;

    private static readonly (string, string)[] Parts =
    [
        ("unit", ReadyMadeSetUps.UnitPart), ("wiring", ReadyMadeSetUps.WiringPart), ("permit", ReadyMadeSetUps.PermitPart),
        ("panel", ReadyMadeSetUps.PanelPart), ("service", ReadyMadeSetUps.ServicePart),
    ];

    private static readonly (string, int)[] PartWords = [.. Parts.Select((p, i) => (p.Item1, i))];
    private static readonly string[] AtHome = ["firstCost", "needs", "lifetimeYears", "standbyW"];
    private static readonly Limits Cost = new(0, 1_000_000);

    /// <summary>The word that a document uses for a part of a first cost.</summary>
    public static string WordFor(string part) => Parts.First(p => p.Item2 == part).Item1;

    /// <summary>Reads the set-ups.</summary>
    public static IReadOnlyList<SetUpDocument>? Read(JsonField? maybe)
    {
        if (maybe is not { } field || field.Items(1, Most, "set-ups") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var setUps = new List<SetUpDocument>(items.Count);
        foreach (var item in items)
        {
            if (One(item) is not { } setUp)
            {
                continue;
            }

            if (setUps.Any(s => s.SetUp.Name == setUp.SetUp.Name))
            {
                item.Faults.Add($"{item.Pointer}/name", "Must be unique among the set-ups.", JsonField.Shortened(setUp.SetUp.Name));
            }

            setUps.Add(setUp);
        }

        return field.Faults.Count > before ? null : setUps;
    }

    private static SetUpDocument? One(JsonField item)
    {
        if (item.Members(
            "name", "supply", "publicChargingOnly", "readyMade", "firstCost", "needs", "lifetimeYears", "standbyW", "incentives") is not { } setUp)
        {
            return null;
        }

        var before = item.Faults.Count;
        var choice = setUp.ExactlyOne("supply", "publicChargingOnly", "readyMade");
        var ready = setUp.Has("readyMade") ? ReadyMade(choice) : null;
        var name = ready is not null
            ? setUp.Optional("name") is { } own ? own.Text(100) : ready.Name
            : setUp.Required("name", "Every set-up has a name.")?.Text(100);
        if (setUp.Has("publicChargingOnly") && choice?.Flag() == false)
        {
            choice.Value.Fault("Must be true where it is given; for charging at home give supply or readyMade.");
        }

        var supply = setUp.Has("supply") ? SupplyReader.Read(choice) : ready?.Supply;
        var inputs = Inputs(setUp, ready);
        var incentives = IncentiveReader.Read(setUp.Optional("incentives"));
        if (setUp.Has("publicChargingOnly") || ready is { Supply: null })
        {
            foreach (var money in AtHome.Where(setUp.Has))
            {
                setUp.Faults.Add(setUp.Pointer(money), "Public charging alone has nothing installed at home: leave this out.");
            }
        }

        return item.Faults.Count > before
            ? null
            : new SetUpDocument(new SetUp(name!, supply), ready ?? OfferedSetUp.Own(name!, supply), inputs, incentives);
    }

    private static ReadyMadeSetUp? ReadyMade(JsonField? field)
    {
        if (field?.Text(100) is not { } id)
        {
            return null;
        }

        if (ReadyMadeSetUps.ById(id) is not { } ready)
        {
            field.Value.Fault($"Must be one of {string.Join(", ", ReadyMadeSetUps.All.Select(s => s.Id))}.");
            return null;
        }

        return ready;
    }

    private static SetUpInputs Inputs(JsonMembers setUp, ReadyMadeSetUp? ready)
    {
        var known = ready?.FirstCost.Select(i => i.Name).ToArray();
        var cost = new Dictionary<string, decimal>();
        if (setUp.Optional("firstCost")?.Members([.. Parts.Select(p => p.Item1)]) is { } given)
        {
            foreach (var (word, part) in Parts)
            {
                if (given.Optional(word) is not { } field)
                {
                    continue;
                }

                if (known is not null && !known.Contains(part))
                {
                    field.Fault("Is no part of this set-up's first cost.");
                }
                else if (field.Exact(Cost) is { } amount)
                {
                    cost[part] = amount;
                }
            }
        }

        var needs = new List<string>();
        foreach (var item in setUp.Optional("needs")?.Items(0, Parts.Length, "parts") ?? [])
        {
            if (item.Word(PartWords) is not { } index)
            {
                continue;
            }

            if (known is not null && !known.Contains(Parts[index].Item2))
            {
                item.Fault("Is no part of this set-up's first cost.");
            }

            needs.Add(Parts[index].Item2);
        }

        return new SetUpInputs
        {
            FirstCost = cost,
            Options = needs,
            LifetimeYears = (int?)setUp.Optional("lifetimeYears")?.Number(new(1, StudyPeriod.MostYears, "years") { Whole = true }),
            StandbyW = setUp.Optional("standbyW")?.Price(new(0, 100, "W")),
        };
    }
}
