using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The options of <c>schedule</c> that stand for fields of its request.</summary>
internal sealed class ScheduleSettings : HouseholdSettings
{
    private const string PerKm = "consumptionKwhPer100Km", PerMi = "consumptionKwhPer100Mi";

    public ScheduleSettings(TextReader standardInput)
        : base(standardInput)
    {
        AddText("--zone", "ZONE", "Time zone of the household, such as America/Chicago.", "#/timeZone");
        AddText("--as-of", "TIME", "When the question is asked, such as 2026-01-14T17:45. Default: now.", "#/asOf");
        AddNumber("--vehicle-kwh", "Usable energy of the battery. [kWh]", "#/vehicle/usableEnergyKwh");
        AddNumber("--charger-kw", "The most that the car's own charger takes. [kW]", "#/vehicle/onBoardChargerKw");
        AddConsumption("--kwh-per-100km", "Consumption at 20 °C. [kWh per 100 km]", PerKm, PerMi);
        AddConsumption("--kwh-per-100mi", "Consumption at 68 °F. [kWh per 100 miles]", PerMi, PerKm);
        AddState("--state-of-charge", "State of charge when plugged in, such as 0.4 or 40%.", "#/plugIn/stateOfCharge");
        AddState("--target", "State of charge wished for at each departure, such as 90%.", "#/options/targetStateOfCharge");
        Add("--supply", "SUPPLY", "How power reaches the car: 240V/40A/hardwired, 120V/15A ...", ["#/supply"], WriteSupply);
        AddFile(
            "--calendar",
            "The trips: an iCalendar file.",
            "#/calendar",
            static (_, _, text) => new JsonObject { ["ics"] = text });
        AddEventDistance("--event-km", "Every event of the calendar is a trip, of this distance where it has none. [km]", "Km", "Mi");
        AddEventDistance("--event-mi", "The same in miles. [mi]", "Mi", "Km");
        AddRatePlan("--rate-plan");
        AddHousehold();
        AddState();
        AddReadingDates();
        AddNumber("--used-so-far-kwh", "What the meter has counted in the billing period so far. [kWh]", "#/options/usedSoFarKwh");
        AddSeveral(
            "--demand-so-far",
            "NAME=KW",
            "Highest average power that the meter has counted in the billing period so far, for a demand charge of the rate plan. [kW]",
            ["#/options/demandSoFarKw"],
            WriteDemandSoFar);
        Add("--temperature", "DEGREES", "One outdoor temperature for the whole time, such as 5C or 41F.", ["#/weather"], WriteTemperature);
        AddFile("--weather", "A weather year: CSV with month,day,hour,temperature_c, or an .epw file.", "#/weather", Weather);
        AddNumber("--house-kwh", "Energy of the house without the car in a year. [kWh]", "#/houseLoad/annualKwh");
        AddNumber("--days", "How many days ahead are planned, 1 to 31. Default: 7.", "#/options/horizonDays");
    }

    private void AddConsumption(string name, string description, string member, string other) =>
        Add(name, "NUMBER", description, [$"#/vehicle/{member}", "#/vehicle"], (draft, typed) =>
        {
            draft.Remove("vehicle", other);
            draft.Set($"#/vehicle/{member}", RequestDraft.Number(typed), name, typed);
        });

    private void AddEventDistance(string name, string description, string unit, string other) =>
        Add(name, "NUMBER", description, [], (draft, typed) =>
        {
            draft.Remove("calendar", $"defaultDistance{other}");
            draft.Set("#/calendar/allEventsAreTrips", JsonValue.Create(true), name, typed);
            draft.Set($"#/calendar/defaultDistance{unit}", RequestDraft.Number(typed), name, typed);
        });

    private static void WriteSupply(RequestDraft draft, string typed)
    {
        if (SupplyText.Read(typed) is { } supply)
        {
            draft.Set("#/supply", supply, "--supply", typed);
        }
        else
        {
            Refuse(draft, "--supply", SupplyText.Rule, typed);
        }
    }

    private static void WriteDemandSoFar(RequestDraft draft, string typed)
    {
        var at = typed.LastIndexOf('=');
        if (at <= 0)
        {
            Refuse(draft, "--demand-so-far", "Must be the name of a demand charge of the rate plan, = and the power in kW, such as \"Peak demand=5.2\".", typed);
            return;
        }

        var options = draft.Root["options"] as JsonObject ?? [];
        draft.Root["options"] = options;
        var soFar = options["demandSoFarKw"] as JsonObject ?? [];
        options["demandSoFarKw"] = soFar;
        draft.SetIn(soFar, "#/options/demandSoFarKw", typed[..at].Trim(), RequestDraft.Number(typed[(at + 1)..]), "--demand-so-far", typed);
    }

    private static void WriteTemperature(RequestDraft draft, string typed)
    {
        var unit = typed.Length > 0 ? char.ToUpperInvariant(typed[^1]) : ' ';
        if (unit is not ('C' or 'F'))
        {
            Refuse(draft, "--temperature", "Must be a number with its unit, such as 5C or 41F.", typed);
            return;
        }

        draft.Set("#/weather", new JsonObject(), "--temperature", typed);
        draft.Set($"#/weather/temperature{unit}", RequestDraft.Number(typed[..^1].TrimEnd(' ', '°')), "--temperature", typed);
    }

    /// <summary>A weather year as a request carries it; none, with faults, where the file is none.</summary>
    // An .epw file may be larger than a text in a request may be: it is read here and handed on as CSV.
    internal static JsonObject? Weather(RequestDraft draft, string path, string text)
    {
        if (!path.EndsWith(".epw", StringComparison.OrdinalIgnoreCase))
        {
            return new JsonObject { ["csv"] = text };
        }

        var year = EpwFile.Read(text, $"{path} #");
        draft.Faults.AddRange(year.Faults);
        return year.IsRead ? new JsonObject { ["csv"] = WeatherText.Csv(year.Value) } : null;
    }
}
