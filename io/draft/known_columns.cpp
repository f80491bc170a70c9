// From memory: MassGIS Level 3 parcels (LOC_ID, MAP_PAR_ID, SITE_ADDR, OWNER1, TOTAL_VAL, STORIES),
// New York tax parcels (PRINT_KEY, SBL, SWIS_SBL_ID, PARCEL_ADDR, PRIMARY_OWNER), the
// emergency-calling model NENA-STA-006 (Add_Number, St_Name, Site_NGUID), the National Hydrography
// Dataset (GNIS_Name, FType, FCode). All others: common practice, no source.
#include "io/draft/known_columns.h"

#include <algorithm>
#include <array>

namespace farwater::io {
namespace {

constexpr KnownColumn sure(std::string_view section, std::string_view field, std::string_view names,
                           std::string_view unit = {}) {
    return {section, field, names, unit, false};
}
constexpr KnownColumn likely(std::string_view section, std::string_view field,
                             std::string_view names, std::string_view unit = {}) {
    return {section, field, names, unit, true};
}

constexpr std::array known_column_rows{
    sure("parcels", "parcel_id",
         "parcelid parcel parcel_no parcel_num parcel_number parcelno parcelnumb parcelnumber pin "
         "gis_pin gispin parcel_pin apn map_par_id mappar maplot map_lot maplotno mblu mbl "
         "map_block_lot parno print_key printkey sbl swis_sbl_id tax_map tax_map_no taxmap "
         "tax_map_number tax_parcel_id taxparcel tax_id taxid gpin tms tmk loc_id prop_id propid "
         "property_id pid nh_gis_id nh_gis_i parcelkey parcel_key lot_id lotid id"),
    sure("parcels", "address",
         "site_addr siteaddr site_address siteaddres siteaddress situs situs_addr situs_address "
         "situsaddr prop_addr propaddr property_address prop_address propertyaddress parcel_addr "
         "parcel_address parceladdr prop_loc physical_address phys_addr full_addr fulladdr "
         "full_address fulladdress street_address streetaddress loc_addr locaddr e911_addr "
         "e911_address address911 addr"),
    sure("parcels", "owner",
         "owner1 owner_1 owner_name ownername ownernme1 owner_nam own1 own_name ownname "
         "primary_owner primaryowner owner_full"),
    sure("parcels", "needed_gpm", "needed_fire_flow nff nff_gpm needed_flow_gpm"),
    sure("parcels", "buildings",
         "bldgs bldg_count bldgcount num_bldgs no_bldgs nbr_bldgs building_count numbldgs"),
    sure("parcels", "storeys", "stories num_stories no_stories nbr_stories stories_num numstories"),
    sure("parcels", "zone", "fire_zone firezone response_zone resp_zone run_zone esz esn"),
    sure("parcels", "value",
         "total_val total_value totalvalue totalval tot_val tot_value total_av total_assd "
         "total_assessed assessed_total assessed_value assessedvalue assd_total total_assessment "
         "market_value marketvalue mkt_val full_mkt_val appraised_value appraised total_appraised"),
    sure("parcels", "people", "occupants residents"),
    likely(
        "parcels", "use",
        "use_code usecode landuse land_use luc land_use_code prop_class propclass usage use_desc "
        "class property_type"),
    // Needed, or available?
    likely("parcels", "needed_gpm", "fire_flow fireflow fire_flow_gpm"),
    likely("parcels", "construction", "constr_type construction_type exterior_wall"),
    likely("parcels", "public", "ownership own_type owner_type exempt"),

    sure("buildings", "building_id",
         "bldg_id bldgid buildingid build_id struct_id structure_id structid footprint_id ubid "
         "osm_way_id osm_id bldg_no id"),
    sure("buildings", "area_sqft", "footprint_sqft ground_sqft foot_sqft"),
    sure("buildings", "storeys",
         "stories num_stories no_stories num_floors floors levels building_levels"),
    likely("buildings", "area_sqft", "sqft bldg_sqft sq_ft gross_sqft sqfeet"),
    likely("buildings", "height_ft", "height bldg_height bldgheight hgt_ft heightft"),
    likely("buildings", "use",
           "bldg_use bldguse building_use occ_class occupancy occ_cls bldg_type bldgtype "
           "building_type building"),

    sure("address_points", "parcel_id",
         "parcelid parcel parcel_no pin apn map_par_id maplot map_lot mblu print_key sbl loc_id"),

    sure("roads", "name",
         "street streetname street_name st_name stname road_name roadname rd_name rdname road "
         "fullname full_name full_street full_st_name fullstname fullstreet label fename strname "
         "str_name street_nam"),
    sure("roads", "class",
         "road_class roadclass rdclass rd_class func_class funcclass funct_class functional_class "
         "f_class fclass func_cls func_sys f_f_class legis_class legisclass legis_cla roadtype "
         "road_type rd_type street_type highway mtfcc cfcc fcc"),
    sure("roads", "one_way", "oneway one_way_dir onewaydir oneway_dir"),
    sure("roads", "bridge", "is_bridge bridge_yn"),
    sure("roads", "rail_crossing", "railxing rail_xing rr_xing rr_crossing rrxing"),
    // A posted limit only slows: km/h taken for mph, or a planning speed for a limit, drives no
    // faster than a blank.
    sure("roads", "speed_limit_mph",
         "speedlimit speed_limit speed_lim speedlim spd_limit speed_lmt posted_speed postedspeed "
         "posted speed_mph mph speed"),
    sure("roads", "weight_limit_lb", "posted_ton posted_tons weight_ton weight_tons limit_tons",
         "short_ton"),
    likely("roads", "class", "type acc"),
    likely("roads", "access", "ownership owner_type jurisdictn jurisdiction juris maint_by status"),
    likely("roads", "surface",
           "surf_type surface_type surfacetype surface_tp surftype surf pavement pave_type"),
    likely("roads", "width_ft",
           "width road_width roadwidth rd_width pave_width surf_width surface_wd surface_width "
           "trav_width"),
    likely("roads", "weight_limit_lb", "weight_limit weightlimit max_weight posted_weight"),
    likely("roads", "height_limit_ft", "height_limit clearance min_clear vert_clear max_height"),
    likely("roads", "maintained_months",
           "maint_mo maint_months winter_maint seasonal plowed ploughed"),

    sure("water_sources", "source_id",
         "sourceid source_no hydrant_id hydrantid hyd_id hydid hydrant_no hydrant_num hyd_no "
         "hydrant facilityid facility_id asset_id assetid site_id water_id ws_id number id"),
    sure("water_sources", "name", "source source_name site_name location"),
    sure("water_sources", "kind",
         "source_type sourcetype hydrant_type hyd_type hydtype water_type type"),
    sure("water_sources", "rate_gpm", "gpm flow_gpm gpm_rated"),
    sure("water_sources", "usable_gal", "usable_gallons"),
    sure("water_sources", "tested_on", "tested test_date testdate flow_date date_tested last_test"),
    sure("water_sources", "owner", "owner_name ownername"),
    sure("water_sources", "note", "notes comment comments remarks"),
    likely("water_sources", "rate_gpm", "flow rate capacity"),
    // Of a full pond, or at drought level?
    likely("water_sources", "usable_gal",
           "gallons gals capacity_gal volume_gal volume usable storage"),
    likely("water_sources", "static_psi", "static static_pressure staticpres"),
    likely("water_sources", "residual_psi", "residual residual_pressure resid"),
    likely("water_sources", "test_flow_gpm", "test_flow observed_flow"),
    likely("water_sources", "colour_class", "color colour bonnet_color cap_color flow_class"),
    likely("water_sources", "main_in", "main_size main_diam main_dia mainsize pipe_size"),

    sure("stations", "station_id",
         "station stationid sta_id station_no station_num station_number stationno sta_no stn "
         "stn_no sta id objectid"),
    sure("stations", "name",
         "station_name stationname placename place_name facility facility_name fac_name "
         "facilityname dept department label"),
    sure("stations", "to_gate_min", "to_gate gate_min"),
    likely("stations", "staffed", "career staffing_type station_type"),

    sure("apparatus", "unit_id",
         "unit unitid unit_no unit_name apparatus apparatus_id truck truck_no vehicle vehicle_id "
         "call_sign callsign radio radio_id"),
    sure("apparatus", "station_id",
         "station home_station housed_at quarters station_no sta stn station_number"),
    sure("apparatus", "kind", "type unit_type apparatus_type vehicle_type truck_type app_type"),
    sure("apparatus", "tank_gal", "tank_gallons gallons water_gal gal tank_capacity_gal"),
    sure("apparatus", "pump_gpm", "gpm pump_rating_gpm rated_gpm"),
    sure("apparatus", "fill_limit_gpm", "fill_gpm fill_rate_gpm"),
    sure("apparatus", "offload_gpm", "dump_gpm dump_rate_gpm offload_rate_gpm"),
    sure("apparatus", "portable_tank_gal",
         "folding_tank_gal folding_tanks_gal drop_tank_gal dump_tank_gal porta_tank_gal "
         "port_a_tank_gal"),
    sure("apparatus", "crew", "usual_crew staffing"),
    likely("apparatus", "tank_gal", "tank tank_size water tank_capacity booster_tank capacity"),
    likely("apparatus", "pump_gpm", "pump pump_size pump_capacity pump_rating"),
    likely("apparatus", "portable_tank_gal",
           "portable_tank folding_tank drop_tank dump_tank porta_tank"),

    sure("staffing", "unit_id", "unit unit_no"),
    sure("staffing", "station_id", "station station_no"),
    sure("staffing", "turnout_min", "turnout"),
    sure("response_zones", "zone", "fire_zone firezone esz esn"),
    sure("response_zones", "unit_id", "unit unit_no"),

    sure("dump_site_places", "place_id", "dump_site dump_site_id site_id place id"),
    sure("dump_site_places", "portable_tanks", "tanks"),
    sure("targets", "target_id", "target id"),
    sure("turnarounds", "turnaround_id", "turn turnaround id"),
    sure("mapped_water", "name", "gnis_name gnisname water_name lake_name waterbody"),
};

constexpr std::array sign_rows{
    SectionSigns{"parcels",
                 "lot_size deeded_acres deed_acres gis_acres calc_acres assessed_acres year_built "
                 "bldg_value land_value land_val bldg_val acreage acres mail_addr mailing_address "
                 "abutters lot block",
                 "parcel cadast taxlot tax_lot lots erven farms assess property",
                 "zoning soil wetland landuse land_use landcover census block_group tract flood "
                 "district precinct county watershed geolog habitat conserv easement boundary "
                 "outline town_line zipcode school protected building footprint water lake pond"},
    SectionSigns{
        "roads",
        "surf_type surface lanes num_lanes l_f_add l_t_add r_f_add r_t_add lf_addr lt_addr "
        "leftfrom fromaddr add_l_from fromaddr_l speed route route_id aadt numlanes",
        "road street centerline centreline highway strt",
        "river stream flowline waterway trail rail contour boundary power transmission "
        "pipe bike culvert snowmobile hydro ditch sidewalk fence hike path driveway_easement "
        "coast canal brook creek"},
    SectionSigns{"buildings", "footprint roof_type roof height bldg_height levels floors",
                 "building bldg footprint structure rooftop",
                 "parcel water lake pond zoning envelope"},
    SectionSigns{"address_points",
                 "add_number addr_num addrnum house_no house_num housenum hse_num hnumber addnum "
                 "st_num stnum street_no street_num streetno site_nguid number full_addr fulladdr "
                 "full_address street_name st_name stname streetname str_name msag_comm unit_no "
                 "address siteaddr",
                 "address addr e911 siteaddr", "station hydrant fire parcel"},
    SectionSigns{"water_sources",
                 "hydrant_type hyd_type bonnet_color cap_color flow_gpm static residual pitot",
                 "hydrant cistern water_source watersource fill_site fillsite dry_hyd draft",
                 "valve meter station propos planned"},
    SectionSigns{"mapped_water",
                 "natural waterbody ftype fcode reachcode gnis_id hydrocode wb_name",
                 "lake pond water hydro reservoir nhd", "source shed hydrant meter valve"},
    SectionSigns{"stations", "fdid fire_dept firedept apparatus_count",
                 "fire_station firestation station firehouse fire_house fire_hall",
                 "gas police weather gauge ev_ charging bus pump_station lift"},
    SectionSigns{"apparatus", "", "apparatus fleet engines trucks vehicles units rolling", ""},
    SectionSigns{"staffing", "", "staffing roster crews", ""},
    SectionSigns{"response_zones", "", "response run_order runorder dispatch", ""},
    SectionSigns{"dump_site_places", "", "dump_site dumpsite dump_place dump_sites", ""},
    SectionSigns{"turnarounds", "", "turnaround turn_around", ""},
    SectionSigns{"targets", "", "target camps mileposts", ""},
    SectionSigns{"join",
                 "year_built bldg_value land_value land_val bldg_val grade condition heated_area "
                 "living_area sale_date sale_price book page cama",
                 "assess cama tax_roll taxroll grand_list owners",
                 "apparatus station hydrant staff unit source"},
    SectionSigns{"elevation", "",
                 "elev dem dtm srtm lidar ground height hgt terrain bare_earth 3dep",
                 "hillshade slope aspect ortho naip landcover nlcd canopy impervious surface_model "
                 "dsm contour flood depth"},
};

}  // namespace

std::span<const KnownColumn> known_columns() { return known_column_rows; }

const SectionSigns* find_signs(std::string_view section) {
    const auto* found = std::ranges::find(sign_rows, section, &SectionSigns::section);
    return found == sign_rows.end() ? nullptr : found;
}

std::vector<std::string_view> words_in(std::string_view list) {
    std::vector<std::string_view> words;
    while (!list.empty()) {
        const std::size_t end = std::min(list.find(' '), list.size());
        if (end > 0) {
            words.push_back(list.substr(0, end));
        }
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return words;
}

}  // namespace farwater::io
