using System.Text.Json.Nodes;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Reports;

/// <summary>A small comparison of an invented household.</summary>
internal static class ReportRequest
{
    public static JsonObject Json() => (JsonObject)JsonNode.Parse("""
        {
          "timeZone": "America/Chicago", "year": 2026,
          "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11.5, "consumptionKwhPer100Km": 15.5 },
          "setUps": [
            { "name": "Outlet", "supply": { "voltageV": 120, "breakerA": 15, "rule": "necContinuousLoad" } },
            { "name": "Unit", "readyMade": "hardwired-240v-40a", "firstCost": { "unit": "650.00", "wiring": "980.00" }, "lifetimeYears": 10,
              "incentives": [ { "name": "Rebate", "amount": "250.00", "source": "Sheet 7 (invented)", "asOf": "2025-11-20" } ] }
          ],
          "ratePlans": ["example-power-standard", "example-power-day-and-night"],
          "behaviours": ["onArrival"],
          "calendar": { "trips": [ { "departure": "2026-01-05T07:30", "return": "2026-01-05T18:00", "distanceKm": 120, "recurrence": "FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR" } ] },
          "weather": { "monthly": { "lowC": [-9,-7,-1,5,11,17,20,19,14,7,1,-6], "highC": [0,2,8,15,21,27,29,28,24,17,9,2] } },
          "houseLoad": { "annualKwh": 6000 },
          "awayCharging": { "pricePerKwh": 0.48 },
          "today": { "setUp": "Outlet", "ratePlan": "example-power-standard", "behaviour": "onArrival" },
          "lifeCycle": { "studyYears": 10 },
          "panel": { "serviceA": 200, "loads": [ { "name": "Lighting", "kva": 9, "kind": "general" } ] },
          "scenario": { "name": "Base", "author": "A. Adviser", "overrides": [ { "field": "#/awayCharging/pricePerKwh", "value": 0.52, "note": "Seen in May" } ] },
          "options": { "gridMinutes": 60 }
        }
        """)!;

    public static IReadOnlyList<Fault> Faults(JsonObject request) => ComparisonRequestReader.Read(JsonText.Read(request.ToJsonString()).Value).Faults;

    public static (ComparisonRequest Request, DecisionResult Decided) Run(JsonObject request)
    {
        var read = ComparisonRequestReader.Read(JsonText.Read(request.ToJsonString()).Value).Value;
        return (read, Decision.Run(read.Decision, cancellation: TestContext.Current.CancellationToken));
    }
}
