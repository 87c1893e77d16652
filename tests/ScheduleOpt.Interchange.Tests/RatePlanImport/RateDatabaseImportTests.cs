using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.RatePlans.Import;
using ScheduleOpt.Interchange.Tests.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlanImport;

// Field meanings: OpenEI, 'Get Utility Rates' REST documentation, version 7.
public class RateDatabaseImportTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["America/Chicago"];
    private static readonly RateImportOptions Options = new() { Zone = Zone };

    private static ImportedRatePlan Import(JsonObject record, RateImportOptions? options = null) =>
        RateDatabaseImport.Read(record.ToJsonString(), options ?? Options).Value;

    private static Fault Refused(JsonObject record) => RateDatabaseImport.Read(record.ToJsonString(), Options).Faults[0];

    private static RatePlan Plan(ImportedRatePlan import) => RatePlanDocument.Read(import.Document.ToJsonString(), import.Id).Value;

    private static FieldCarried Field(ImportedRatePlan import, string name) => import.Fields.Single(f => f.Field == name);

    [Fact]
    public void FlatRate_AMonth_IsPricePlusRiderTimesUse()
    {
        var import = Import(Records.Flat());
        var june = MeteredSeries.FromKilowattHours(
            new LocalDate(2026, 6, 1).AtStartOfDayInZone(Zone).ToInstant(), Duration.FromHours(1), Enumerable.Repeat(1.0, 720).ToArray());

        // 10.50 + 720 x (0.10 + 0.02)
        Assert.Equal(96.90m, Biller.Bill(Plan(import), june).Total);
        Assert.Equal("example-power-invented-residential-539fc010ec4f024c27d8a5d9", import.Id);
        Assert.Equal(new LocalDate(2026, 1, 1), Plan(import).EffectiveFrom);
        Assert.Contains("539fc010ec4f024c27d8a5d9", Plan(import).Source, StringComparison.Ordinal);
        Assert.Equal(Carried.Yes, Field(import, "energyratestructure").How);
        Assert.Equal(Carried.Yes, Field(import, "fixedchargefirstmeter").How);
    }

    [Fact]
    public void EveryField_IsReportedOnce()
    {
        var record = Records.Rich();
        record["somethingnew"] = 1;
        var import = Import(record);

        foreach (var (name, _) in record.Where(m => m.Key is not ("fixedchargeunits" or "minchargeunits")))
        {
            Assert.Single(import.Fields, f => f.Field == name);
        }

        Assert.Equal(import.Fields.Count, import.Fields.Select(f => f.Field).Distinct().Count());
        Assert.All(import.Fields.Where(f => f.How != Carried.Yes), f => Assert.NotEmpty(f.Note));
        Assert.Equal(Carried.No, Field(import, "somethingnew").How);
        Assert.Equal(Carried.No, Field(import, "energyattrs").How);
        Assert.Equal(Carried.No, Field(import, "<holidays>").How);
        Assert.Equal(Carried.No, Field(import, "<taxes>").How);
        Assert.Equal(Carried.WithAssumption, Field(import, "demandratchetpercentage").How);
        Assert.Equal(Carried.WithAssumption, Field(import, "energycomments").How);
    }

    [Fact]
    public void RichRecord_IsADocumentOfTheSchema() => Assert.True(RatePlanSchema.Accepts(Import(Records.Rich()).Document.ToJsonString()));

    [Fact]
    public void RichRecord_HasSeasonsWindowsAndDemandOfItsOwn()
    {
        var document = Import(Records.Rich()).Document;

        // Fuel changes in July, prices in June and October.
        Assert.Equal(4, document["seasons"]!.AsArray().Count);
        Assert.Equal(["weekday", "weekend"], document["dayTypes"]!.AsArray().Select(d => (string)d!["name"]!));
        Assert.Empty(document["holidays"]!.AsArray());
        Assert.Equal("demand", (string)document["calendars"]![0]!["name"]!);
        Assert.Equal(60, (int)document["export"]!["nettingMinutes"]!);
        Assert.Equal(35, (decimal)document["demandCharges"]!.AsArray().First(c => c!["ratchet"] is not null)!["ratchet"]!["percent"]!);
    }

    [Theory]
    [InlineData(TierCounting.OverAllPeriods, 500)]
    [InlineData(TierCounting.ByPeriod, 1000)]
    public void Tiers_CountAllPeriodsOrEach(TierCounting counting, decimal cheapKwh)
    {
        var record = Records.Flat();
        record["energyratestructure"] = Records.Structure([Records.Tier(0.10m, 500), Records.Tier(0.20m)], [Records.Tier(0.10m, 500), Records.Tier(0.20m)]);
        record["energyweekdayschedule"] = Records.Matrix((_, h) => h < 12 ? 0 : 1);
        record["energyweekendschedule"] = Records.Matrix((_, h) => h < 12 ? 0 : 1);
        var import = Import(record, Options with { Tiers = counting });
        var june = MeteredSeries.FromKilowattHours(
            new LocalDate(2026, 6, 1).AtStartOfDayInZone(Zone).ToInstant(), Duration.FromHours(1), Enumerable.Repeat(2.0, 720).ToArray());

        Assert.Equal(10.50m + (cheapKwh * 0.10m) + ((1440 - cheapKwh) * 0.20m), Biller.Bill(Plan(import), june).Total);
        Assert.Contains(counting == TierCounting.ByPeriod ? "each period by itself" : "together", Field(import, "energyratestructure").Note,
            StringComparison.Ordinal);
    }

    [Fact]
    public void HoursUse_LimitsPerKilowatt_ReferToTheHighestDemand()
    {
        var record = Records.Flat();
        record["energyratestructure"] = Records.Structure([Records.Tier(0.10m, 200, unit: "kWh/kW"), Records.Tier(0.05m, unit: "kWh/kW")]);
        record["demandwindow"] = 60;
        var kwh = Enumerable.Repeat(1.0, 720).ToArray();
        kwh[5] = 2;
        var june = MeteredSeries.FromKilowattHours(new LocalDate(2026, 6, 1).AtStartOfDayInZone(Zone).ToInstant(), Duration.FromHours(1), kwh);

        // 2 kW x 200 h = 400 kWh at 0.10, 321 kWh at 0.05.
        Assert.Equal(10.50m + 40 + 16.05m, Biller.Bill(Plan(Import(record)), june).Total);
    }

    [Fact]
    public void Ratchet_AShareOfAPastPeak_IsBilledInLaterMonths()
    {
        var record = Records.Flat();
        record["flatdemandstructure"] = Records.Structure([Records.Tier(10m, unit: null)]);
        record["demandwindow"] = 60;
        record["demandratchetpercentage"] = new JsonArray([.. Enumerable.Range(0, 12).Select(_ => (JsonNode)50)]);
        var start = new LocalDate(2026, 1, 1).AtStartOfDayInZone(Zone).ToInstant();
        var kwh = Enumerable.Range(0, 8760).Select(h => h == 100 ? 10.0 : 1.0).ToArray();
        var bill = Biller.Bill(Plan(Import(record)), MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), kwh));

        // 10 kW in January, then half of that while 1 kW is measured.
        Assert.Equal(100, bill.Periods[0].Lines.Where(l => l.Part == BillPart.DemandCharge).Sum(l => l.Amount));
        Assert.All(bill.Periods.Skip(1), p => Assert.Equal(50, p.Lines.Where(l => l.Part == BillPart.DemandCharge).Sum(l => l.Amount)));
    }

    [Fact]
    public void NetBillingByTheHour_PaysSellForWhatIsLeftOfAnHour()
    {
        var record = Records.Flat();
        record["energyratestructure"] = Records.Structure([Records.Tier(0.10m, sell: 0.04m)]);
        record["dgrules"] = "Net Billing Hourly";
        var start = new LocalDate(2026, 6, 1).AtStartOfDayInZone(Zone).ToInstant();
        var import = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(15), Enumerable.Repeat(0.25, 2880).ToArray());
        var export = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(15), Enumerable.Range(0, 2880).Select(i => i < 4 ? 0.75 : 0).ToArray());

        // Of the first hour 2 kWh are exported; 719 kWh are imported.
        Assert.Equal(10.50m + 71.90m - 0.08m, Biller.Bill(Plan(Import(record)), import, input: new BillInput { Export = export }).Total);
    }

    [Theory]
    [InlineData("$/day", "day")]
    [InlineData("$/month", "month")]
    [InlineData("$/year", "year")]
    public void FixedCharge_KeepsItsUnit(string unit, string per)
    {
        var record = Records.Flat();
        record["fixedchargeunits"] = unit;
        Assert.Equal(per, (string)Import(record).Document["customerCharges"]![0]!["per"]!);
    }

    [Fact]
    public void OlderNames_AreCarried()
    {
        var record = Records.Flat();
        record.Remove("fixedchargefirstmeter");
        record.Remove("fixedchargeunits");
        record["fixedmonthlycharge"] = 8;
        record["minmonthlycharge"] = 9;
        record["usenetmetering"] = true;
        var import = Import(record);

        Assert.Equal(8, (decimal)import.Document["customerCharges"]![0]!["amount"]!);
        Assert.Equal(9, (decimal)import.Document["minimumBill"]!["amount"]!);
        Assert.Equal("netMetering", (string)import.Document["export"]!["kind"]!);
    }

    [Theory]
    [InlineData("Buy All Sell All")]
    [InlineData("Net Billing Instantaneous")]
    public void ExportRule_ThatCantBeCarried_IsNamed(string rule)
    {
        var record = Records.Flat();
        record["dgrules"] = rule;
        var import = Import(record);

        Assert.Null(import.Document["export"]);
        Assert.Equal(Carried.No, Field(import, "dgrules").How);
    }

    [Fact]
    public void ManyPeriods_FewInEachSeason_ShareNames()
    {
        var record = Records.Flat();
        record["energyratestructure"] = Records.Structure([.. Enumerable.Range(0, 24).Select(i => new[] { Records.Tier(0.10m + (i * 0.01m)) })]);
        record["energyweekdayschedule"] = Records.Matrix((m, h) => (m * 2) + (h < 12 ? 0 : 1));
        record["energyweekendschedule"] = Records.Matrix((m, h) => (m * 2) + (h < 12 ? 0 : 1));
        var plan = Plan(Import(record));
        var march = MeteredSeries.FromKilowattHours(new LocalDate(2026, 4, 1).AtStartOfDayInZone(Zone).ToInstant(), Duration.FromHours(1),
            Enumerable.Repeat(1.0, 720).ToArray());

        // April: periods 6 and 7, at 0.16 and 0.17.
        Assert.Equal(10.50m + (360 * 0.16m) + (360 * 0.17m), Biller.Bill(plan, march).Total);
    }

    [Fact]
    public void Answer_OfSeveralRecords_NeedsALabel()
    {
        var other = Records.Rich();
        other["label"] = "other";
        var answer = new JsonObject { ["items"] = new JsonArray(Records.Flat(), other) }.ToJsonString();

        Assert.Contains("539fc010ec4f024c27d8a5d9, other", RateDatabaseImport.Read(answer, Options).Faults[0].Value, StringComparison.Ordinal);
        Assert.NotNull(RateDatabaseImport.Read(answer, Options with { Label = "other" }).Value.Document["export"]);
        Assert.Equal("#/items", RateDatabaseImport.Read(answer, Options with { Label = "third" }).Faults[0].Pointer);
    }

    public static TheoryData<string, string, string> Wrong => new()
    {
        { "energyratestructure", "[]", "#/energyratestructure" },
        { "energyratestructure", "[[{\"rate\":\"dear\"}]]", "#/energyratestructure/0/0/rate" },
        { "energyratestructure", "[[{\"rate\":0.1,\"max\":5},{\"rate\":0.2,\"max\":4},{\"rate\":0.3}]]", "#/energyratestructure/0/1/max" },
        { "energyratestructure", "[[{\"rate\":0.1,\"max\":5,\"unit\":\"kWh/kW daily\"},{\"rate\":0.2,\"unit\":\"kWh/kW daily\"}]]", "#/energyratestructure" },
        { "energyratestructure", "[[{\"rate\":0.1},{\"rate\":0.2}]]", "#/energyratestructure/0/0/max" },
        { "energyweekdayschedule", "[[0]]", "#/energyweekdayschedule" },
        { "energyweekendschedule", "5", "#/energyweekendschedule" },
        { "fixedchargeunits", "\"$/week\"", "#/fixedchargeunits" },
        { "fueladjustmentsmonthly", "[1,2]", "#/fueladjustmentsmonthly" },
        { "startdate", "\"soon\"", "#/startdate" },
        { "mincharge", "-4", "#/mincharge" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void WrongField_IsAFaultAtItsPlace(string field, string value, string pointer)
    {
        var record = Records.Flat();
        record[field] = JsonNode.Parse(value);

        Assert.Equal(pointer, Refused(record).Pointer);
    }

    [Fact]
    public void Schedule_NamesAPeriodThatIsNotThere_IsAFaultAtItsPlace()
    {
        var record = Records.Flat();
        record["energyweekdayschedule"] = Records.Matrix((m, h) => m == 3 && h == 7 ? 1 : 0);

        Assert.Equal("#/energyweekdayschedule/3/7", Refused(record).Pointer);
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{\"items\":{}}")]
    [InlineData("{\"name\":\"a\",\"name\":\"b\"}")]
    [InlineData("{\"name\":\"\\ud800\",\"energyratestructure\":[[{\"rate\":\"\\ud800\"}]]}")]
    public void NotARecord_IsAClearFault(string text) => Assert.NotEmpty(RateDatabaseImport.Read(text, Options).Faults);

    [Fact]
    public void DeepRecord_IsRefused() =>
        Assert.Contains("16 levels", RateDatabaseImport.Read(new string('[', 100_000), Options).Faults[0].Rule, StringComparison.Ordinal);
}
