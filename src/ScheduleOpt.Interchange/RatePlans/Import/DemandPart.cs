using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Demand charges: flat ones by month, those by time of use, and ratchets.</summary>
internal sealed class DemandPart
{
    /// <summary>A charge without a price that remembers the highest demand for ratchets and limits.</summary>
    public const string Highest = "Highest demand";

    private readonly DatabaseRecord record;
    private readonly DemandTerms terms;
    private readonly int[] flatMonths;
    private readonly decimal[] ratchet;

    public DemandPart(DatabaseRecord record)
    {
        this.record = record;
        Flat = PriceStructure.Read(record, "flatdemandstructure", 0, 1000);
        ByTime = PriceStructure.Read(record, "demandratestructure", 0, 1000);
        Matrix = ByTime.Count > 0 ? MonthMatrix.Read(record, "demandweekdayschedule", "demandweekendschedule", ByTime.Count) : null;
        if (ByTime.Count == 0)
        {
            record.ReportIfThere(Carried.Yes, "There is no structure that it would apply to.", "demandweekdayschedule", "demandweekendschedule");
        }

        terms = new(record, Flat.Count);
        flatMonths = terms.Months();
        ratchet = terms.Ratchet();
    }

    public IReadOnlyList<IReadOnlyList<PriceTier>> Flat { get; }

    public IReadOnlyList<IReadOnlyList<PriceTier>> ByTime { get; }

    public MonthMatrix? Matrix { get; }

    /// <summary>What demand makes of a month, as a text.</summary>
    public string Pattern(int month) => $"{Matrix?.Pattern(month)}|{(Flat.Count > 0 ? flatMonths[month] : 0)}|{ratchet[month]}";

    /// <summary>Writes the charges.</summary>
    /// <param name="document">The rate plan.</param>
    /// <param name="seasons">Its seasons.</param>
    /// <param name="needsHighest">Whether a limit counts kWh per kW.</param>
    public void Write(JsonObject document, SeasonMonths seasons, bool needsHighest)
    {
        var charges = new JsonArray();
        var hasRatchet = Flat.Count > 0 && ratchet.Any(r => r > 0);
        if (hasRatchet || needsHighest)
        {
            charges.Add(new JsonObject { ["name"] = Highest, ["pricePerKw"] = 0, ["averagingMinutes"] = terms.Minutes() });
        }

        AddFlat(charges, seasons, hasRatchet);
        AddByTime(document, charges, seasons);
        if (charges.Count > 0)
        {
            document["demandCharges"] = charges;
        }

        record.ReportIfThere(Carried.No, "Reactive power is not metered in a home.", "demandreactivepowercharge");
        record.ReportIfThere(Carried.No, "The hours of the system's peak are not known beforehand.",
            "coincidentratestructure", "coincidentrateschedule", "coincidentschedule", "coincidentrateunit");
    }

    private void AddFlat(JsonArray charges, SeasonMonths seasons, bool hasRatchet)
    {
        if (Flat.Count == 0)
        {
            record.ReportIfThere(Carried.Yes, "There is no structure that it would apply to.", "flatdemandmonths", "flatdemandunit");
            return;
        }

        record.Report("flatdemandstructure", Carried.Yes);
        if (terms.Per("flatdemandunit") is not { } per)
        {
            return;
        }

        for (var period = 0; period < Flat.Count; period++)
        {
            foreach (var share in ratchet.Distinct().Order())
            {
                bool Holds(int month) => flatMonths[month] == period && ratchet[month] == share;
                if (!Enumerable.Range(0, 12).Any(Holds) || Flat[period].All(t => t.Price == 0))
                {
                    continue;
                }

                var charge = Charge($"Demand{(Flat.Count > 1 ? $", level {period + 1}" : "")}", seasons.Where(Holds), Flat[period], per);
                if (hasRatchet && share > 0)
                {
                    charge["ratchet"] = new JsonObject { ["percent"] = share * 100, ["months"] = 11, ["of"] = Highest };
                }

                charges.Add(charge);
            }
        }
    }

    private void AddByTime(JsonObject document, JsonArray charges, SeasonMonths seasons)
    {
        if (Matrix is null)
        {
            return;
        }

        record.Report("demandratestructure", Carried.Yes);
        var calendar = new CalendarPart(Matrix, seasons);
        if (!calendar.IsExpressible)
        {
            record.Fault("demandweekdayschedule", "A rate plan has at most 12 periods in a season and 200 windows.");
            return;
        }

        if (terms.Per("demandrateunit") is not { } per || ByTime.All(p => p.All(t => t.Price == 0)))
        {
            return;
        }

        if (calendar.Names.Count > 1)
        {
            var own = new JsonObject { ["name"] = "demand" };
            calendar.Write(own, always: true);
            document["calendars"] = new JsonArray(own);
        }

        foreach (var period in Matrix.Periods.Where(p => ByTime[p].Any(t => t.Price != 0)))
        {
            foreach (var named in calendar.SeasonsOf(period).GroupBy(s => calendar.Name(s, period)))
            {
                var isEverywhere = calendar.Names.Count > 1 && calendar.SharesNames;
                var names = named.Select(s => seasons.All[s].Name).ToHashSet();
                var charge = Charge(
                    $"Demand, {named.Key}", isEverywhere ? null
                        : seasons.Where(m => seasons.All.Any(s => s.Months.Contains(m) && names.Contains(s.Name))), ByTime[period], per);
                if (calendar.Names.Count > 1)
                {
                    charge["calendar"] = "demand";
                    charge["periods"] = new JsonArray(named.Key);
                }

                charges.Add(charge);
            }
        }
    }

    private JsonObject Charge(string name, JsonArray? inSeasons, IReadOnlyList<PriceTier> tiers, string per)
    {
        var charge = new JsonObject { ["name"] = name };
        if (inSeasons is not null)
        {
            charge["seasons"] = inSeasons;
        }

        if (tiers.Count == 1)
        {
            charge["pricePerKw"] = tiers[0].Price;
        }
        else
        {
            charge["blocks"] = new JsonArray([.. tiers.Select(t =>
            {
                var block = new JsonObject();
                if (t.Max is { } max)
                {
                    block["upToKw"] = max;
                }

                block["pricePerKw"] = t.Price;
                return (JsonNode)block;
            })]);
        }

        if (per != "month")
        {
            charge["per"] = per;
        }

        charge["averagingMinutes"] = terms.Minutes();
        return charge;
    }
}
