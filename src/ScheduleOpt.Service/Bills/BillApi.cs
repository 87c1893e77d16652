using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Service.Bills;

/// <summary>What a metered series costs on a rate plan.</summary>
internal static class BillApi
{
    /// <summary>Maps the address.</summary>
    public static void MapBills(this RouteGroupBuilder v1) => v1
        .MapPost("/bills", Create)
        .WithTags("Bills")
        .WithName("createBill")
        .WithSummary("Works out the bill of a metered series on a rate plan")
        .WithDescription("One statement per billing period, every line with its quantity and price, and the totals by part.");

    private static Task<IResult> Create(HttpContext context, Answering answering) => answering.AnswerAsync(
        context,
        BillRequestReader.Read,
        static (request, _) => WrittenAnswer.Json(BillAnswerWriter.Write(request, request.Bill())));
}
